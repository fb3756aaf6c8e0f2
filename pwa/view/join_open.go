package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
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
		return Narrow(Heading("First start", "Open as "+who+"?"),
			PostForm(ByServer, "join-open", address.JoinOpen.Path(), h.Class("panel"),
				h.P(g.Text(opensWhat(p.Role)+" Not you? Close this page: nothing was changed.")),
				Hidden(FieldInstall, p.Code),
				Submit(Primary, g.Text("Open as "+who))))
	}
	now := personWords(p.NowName, p.NowRole)
	return Narrow(Heading("This phone is "+possessive(now), "Open as "+who+"?"),
		Panel("", "",
			h.P(g.Text("Somebody sent you here? Then stay as you are. Nothing was changed.")),
			h.P(ButtonLink(address.Home.Path(), Primary, g.Text("Stay as "+now)))),
		PostForm(ByServer, "join-open", address.JoinOpen.Path(), h.Class("panel"),
			h.P(g.Text("Or make this phone "+possessive(who)+". "+opensWhat(
				p.Role,
			)+" What "+now+" did here and has not shared yet waits on this phone until "+now+" is let in again.")),
			Hidden(FieldInstall, p.Code),
			Hidden(FieldInstead, "yes"),
			Submit(Quiet, g.Text("Open as "+who+" instead"))))
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
