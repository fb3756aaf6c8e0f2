package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// ButtonStyle says how a button looks.
type ButtonStyle string

// The styles of a button.
const (
	Plain   ButtonStyle = ""
	Primary ButtonStyle = "go" // one a page: what most people want next
	Quiet   ButtonStyle = "quiet"
)

// class returns the class attribute; nil for a plain button.
func (s ButtonStyle) class() g.Node { return g.If(s != Plain, h.Class(string(s))) }

// Submit draws a button that posts its form. Attributes may stand among the label.
func Submit(style ButtonStyle, label ...g.Node) g.Node {
	return h.Button(h.Type("submit"), style.class(), g.Group(label))
}

// SubmitAct draws a button that posts its form with an act of its own.
func SubmitAct(act string, style ButtonStyle, label string) g.Node {
	return Submit(style, h.Name(FieldAct), h.Value(act), g.Text(label))
}

// Button draws a button for the page's script. Attributes may stand among the label.
func Button(style ButtonStyle, label ...g.Node) g.Node {
	return h.Button(h.Type("button"), style.class(), g.Group(label))
}

// ButtonRow puts buttons side by side, in as many rows as they need. Attributes may stand among them.
func ButtonRow(buttons ...g.Node) g.Node { return h.Div(h.Class("choices"), g.Group(buttons)) }

// ButtonLink draws a link that looks like a button. Attributes may stand among the label.
func ButtonLink(href string, style ButtonStyle, label ...g.Node) g.Node {
	return h.A(h.Class("button "+string(style)), h.Href(href), g.Group(label))
}

// PlainLink draws a link with an icon before its label; no icon if that is empty. Attributes may stand among more.
func PlainLink(href, icon, label string, more ...g.Node) g.Node {
	return h.A(h.Class("plainlink"), h.Href(href), g.If(icon != "", Icon(icon)), g.Text(label), g.Group(more))
}

// LinkBelow draws a [PlainLink] on a line of its own, below what it belongs to.
func LinkBelow(href, icon, label string, more ...g.Node) g.Node {
	return h.P(h.Class("below"), PlainLink(href, icon, label, more...))
}

// PrintButton prints the page. The page's script shows it, since printing needs one.
func PrintButton() g.Node {
	return Button(Quiet, g.Attr("data-print"), g.Attr("hidden"), Icon("print"), g.Text("Print"))
}
