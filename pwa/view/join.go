package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// JoinForm is what was typed on the join page and what is wrong with it.
type JoinForm struct {
	Name, Code           string
	NameError, CodeError string
	Owner                bool // an invitation for a phone of the owner, who may leave the name empty

	AppCode, AppCodeError string // of the form for a short code
}

// The names of the join form's fields. Token is filled from the link by the phone's script; Code is typed by hand.
const (
	FieldName  = "name"
	FieldToken = "token"
	FieldCode  = "code"
)

// Join draws the page that a helper link opens: a name to type and what the link lets them do.
func Join(f Frame, typed JoinForm) g.Node {
	if typed.Owner {
		return joinAsOwner(f, typed)
	}
	return Narrow(Heading("You are invited", "Help with a job"),
		FormPanel("join", address.Join.Path(),
			joinName(typed, h.Required()),
			h.Input(h.Type("hidden"), h.Name(FieldToken), g.Attr("data-from-fragment")),
			foldedCode(typed),
			Submit(Primary, g.Text("Join"))),
		plainHTTP(f),
		joinMeans(f))
}

// joinAsOwner draws the page of an invitation for another phone of the owner.
func joinAsOwner(f Frame, typed JoinForm) g.Node {
	return Narrow(Heading("", "Open your jobs here"),
		FormPanel("join", address.Join.Path()+"?as=owner",
			h.P(g.Text("Opens all your jobs on this phone. The link works once.")),
			joinName(typed),
			h.Input(h.Type("hidden"), h.Name(FieldToken), g.Attr("data-from-fragment")),
			foldedCode(typed),
			Submit(Primary, g.Text("Open my jobs"))),
		plainHTTP(f))
}

// Scan draws the page for somebody who holds a picture of a code, or a code on paper.
func Scan(f Frame, typed JoinForm) g.Node {
	return Narrow(Heading("", LabelJoin),
		typeAppCode(typed),
		Panel("", "",
			h.Ol(h.Class("steps"),
				h.Li(g.Text("Point this phone’s camera at the square code.")),
				h.Li(g.Text("Tap the link it shows.")),
				h.Li(g.Text("No square code? Paste the link or type the code below.")))),
		FormPanel("scan", address.Join.Path(),
			joinName(typed, h.Required()),
			joinCode(typed),
			Submit(Primary, g.Text("Join"))),
		plainHTTP(f),
		joinMeans(f))
}

func joinName(typed JoinForm, needed ...g.Node) g.Node {
	return textInput("join-name", FieldName, "Your name", "Shown next to what you tick.",
		typed.Name, typed.NameError, h.AutoComplete("given-name"), h.MaxLength("60"), g.Attr("enterkeyhint", "go"),
		g.Group(needed))
}

// foldedCode draws the field for the code behind a line to tap, since most people come by the link itself.
func foldedCode(typed JoinForm) g.Node {
	return g.Group{
		Disclosure("set", "Type the code", g.If(typed.CodeError != "" || typed.Code != "", g.Attr("open")),
			joinCode(typed)),
		h.NoScript(h.P(h.Class("help"),
			g.Text("Scripts are off: type the part of your link after the # sign above."))),
	}
}

func joinCode(typed JoinForm) g.Node {
	return textInput("join-code", FieldCode, "Code or link", "The whole link, or the part after #.",
		typed.Code, typed.CodeError, h.AutoComplete("off"), g.Attr("autocapitalize", "off"), g.Attr("spellcheck", "false"))
}

// textInput draws one text field with label, help and error, outside of a job's fields.
func textInput(id, name, label, help, value, wrong string, more ...g.Node) g.Node {
	described := id + "-help"
	if wrong != "" {
		described += " " + id + "-error"
	}
	return FieldBox(id, label, wrong,
		h.Input(h.ID(id), h.Type("text"), h.Name(name), h.Value(value), h.Aria("describedby", described),
			g.If(wrong != "", h.Aria("invalid", "true")), g.Group(more)),
		FieldHelp(id, help))
}

func joinMeans(f Frame) g.Node {
	return Panel("What the link lets you do", "", Hints(
		Hint("tick", "See the cards, pack list and counts of one job, and tick and count along."),
		g.If(!f.OverHTTP, Hint("tick", "Work without signal: ticks are shared when it is back.")),
		Hint("phone", "No account. Nothing else on this phone is read.")))
}

// JoinEnded draws the page for a link that has ended.
func JoinEnded(f Frame) g.Node {
	return Trouble(LabelLinkEnded, LabelLinkOver,
		"What you ticked with it is kept.", LabelNewLink, address.Scan.Path(), LabelTypeCode)
}
