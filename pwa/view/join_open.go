package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// JoinAs says who an installed app's code signs in, and who uses the phone now.
type JoinAs struct {
	Code    string
	Typed   bool   // it is a short code that somebody typed
	Name    string // of the person the code signs in; empty: an owner without a name
	Role    job.Role
	In      bool   // the phone is signed in already, as somebody else
	NowName string // who that is
	NowRole job.Role
}

// FieldInstall is the field for an installed app's code.
const FieldInstall = "i"

// JoinOpen draws the first start of an installed app. It asks before anything happens.
func JoinOpen(f Frame, p JoinAs) g.Node {
	who := personWords(p.Name, p.Role)
	if !p.In {
		return Narrow(Heading("First start", "Open as "+who+"?"),
			FormPanel("join-open", address.JoinOpen.Path(),
				h.P(g.Text(opensWhat(p.Role)+" Not you? Close this page.")),
				Hidden(FieldInstall, p.Code),
				Submit(Primary, g.Text("Open as "+who))))
	}
	now := personWords(p.NowName, p.NowRole)
	to, field := address.JoinOpen, FieldInstall
	if p.Typed {
		to, field = address.JoinTyped, FieldAppCode
	}
	return Narrow(Heading("This phone is "+possessive(now), "Open as "+who+"?"),
		Panel("", "",
			h.P(g.Text("Did somebody send you here? Then stay as you are.")),
			h.P(ButtonLink(address.Home.Path(), Primary, g.Text("Stay as "+now)))),
		FormPanel("join-open", to.Path(),
			h.P(g.Text("Or make this phone "+possessive(who)+". "+opensWhat(p.Role)+
				" What "+now+" has not shared yet waits here until "+now+" is back.")),
			Hidden(field, p.Code),
			Hidden(FieldInstead, "yes"),
			Submit(Quiet, g.Text("Open as "+who+" instead"))))
}

// personWords names a person: by name, or by role if there is no name.
func personWords(name string, role job.Role) string {
	switch {
	case name != "":
		return name
	case role == job.Owner:
		return "the owner"
	}
	return "a helper"
}

func possessive(who string) string { return who + "’s" }

func opensWhat(role job.Role) string {
	if role == job.Owner {
		return "It opens all jobs, with prices and contacts."
	}
	return "It opens one job, without prices and contacts."
}
