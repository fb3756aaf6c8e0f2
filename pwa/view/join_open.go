package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/job"
)

// JoinAs says whom an installed app's code lets in, and who the phone is now.
type JoinAs struct {
	Code    string
	Name    string // of the person the code lets in; empty: an owner without a name
	Role    job.Role
	In      bool   // the phone is let in already, as somebody else
	NowName string // who that is
	NowRole job.Role
}

// FieldInstall carries an installed app's code.
const FieldInstall = "i"

// JoinOpen draws the question that an installed app's first start asks: nothing happens before a tap.
func JoinOpen(f Frame, p JoinAs) g.Node {
	who := personWords(p.Name, p.Role)
	if !p.In {
		return html(`<div class="narrow">{}
			<form method="post" action="/j/open" id="join-open" data-server class="panel">
				<p>$</p>{}<button type="submit" class="go">$</button></form></div>`,
			texts{opensWhat(p.Role) + " Not you? Close this page: nothing was changed.", "Open as " + who},
			Heading("First start", "Open as "+who+"?"), Hidden(FieldInstall, p.Code))
	}
	now := personWords(p.NowName, p.NowRole)
	return html(
		`<div class="narrow">{}{}
		<form method="post" action="/j/open" id="join-open" data-server class="panel">
			<p>$</p>{}{}<button type="submit" class="quiet">$</button></form></div>`,
		texts{
			"Or make this phone " + possessive(who) + ". " + opensWhat(
				p.Role,
			) + " What " + now + " did here and has not shared yet waits on this phone until " + now + " is let in again.",
			"Open as " + who + " instead",
		},
		Heading("This phone is "+possessive(now), "Open as "+who+"?"),
		Panel("", "",
			txt("p", "Somebody sent you here? Then stay as you are. Nothing was changed."),
			html(`<p><a class="button go" href="/">$</a></p>`, texts{"Stay as " + now})),
		Hidden(FieldInstall, p.Code),
		Hidden(FieldInstead, "yes"),
	)
}

// personWords names a person, an owner without a name by what they are.
func personWords(name string, role job.Role) string {
	if name == "" {
		return pick(role == job.Owner, "the owner", "a helper")
	}
	return name
}

func possessive(who string) string { return who + "’s" }

func opensWhat(role job.Role) string {
	if role == job.Owner {
		return "It opens all jobs, with prices and contacts."
	}
	return "It opens one job, without prices and contacts."
}
