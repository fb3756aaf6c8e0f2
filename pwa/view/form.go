package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Answerer says who answers a form when the phone's core runs.
type Answerer string

// Who answers a form.
const (
	ByCore   Answerer = "core"   // the core on the phone, with or without signal
	ByServer Answerer = "server" // the server alone
)

// PostForm draws a form that posts to an address. Attributes may stand among what is inside.
func PostForm(by Answerer, id, action string, inside ...g.Node) g.Node {
	return h.Form(h.Method("post"), h.Action(action), h.ID(id), g.Attr("data-"+string(by)), g.Group(inside))
}

// FormPanel draws a form that is a panel of its own. The server alone answers it.
func FormPanel(id, action string, inside ...g.Node) g.Node {
	return PostForm(ByServer, id, action, h.Class("panel"), g.Group(inside))
}

// ActForm draws a form with one button: an act on one thing of a page.
func ActForm(id, action, act, what string, style ButtonStyle, label ...g.Node) g.Node {
	return PostForm(ByCore, id, action, h.Class("deed"), Hidden(FieldAct, act), Hidden("id", what),
		Submit(style, label...))
}

// EditForm draws a form that the phone's core can answer. Live, if not empty, is the address that draws the page anew
// while one types.
func EditForm(id, action, live string, inside ...g.Node) g.Node {
	return PostForm(ByCore, id, action, h.Class("edit"), g.Attr("novalidate"), g.If(live != "", h.Data("live", live)),
		g.Group(inside))
}

// Foot draws the buttons that end a form.
func Foot(label string, others ...g.Node) g.Node {
	return h.Div(h.Class("foot"), Submit(Primary, g.Text(label)), g.Group(others))
}

// Hidden draws a hidden form field.
func Hidden(name, value string) g.Node {
	return h.Input(h.Type("hidden"), h.Name(name), h.Value(value))
}

// Fields puts the fields of a form one below the other.
func Fields(fields ...g.Node) g.Node { return h.Div(h.Class("fields"), g.Group(fields)) }

// FieldBox draws a label above an input with what is wrong below; wrong may be empty. More stands between the two, such
// as [FieldHelp].
func FieldBox(id, label, wrong string, input g.Node, more ...g.Node) g.Node {
	return FieldOf(id, g.Text(label), wrong, input, more...)
}

// FieldOf draws a [FieldBox] whose label is more than a text.
func FieldOf(id string, label g.Node, wrong string, input g.Node, more ...g.Node) g.Node {
	return h.Div(h.Class("field"), bad(wrong), h.Label(h.For(id), label), input, g.Group(more), wrongLine(id, wrong))
}

// FieldGroup draws several inputs under one legend, with what is wrong below; wrong may be empty.
func FieldGroup(id string, legend g.Node, wrong string, inside ...g.Node) g.Node {
	return h.FieldSet(h.Class("field"), h.ID(id), bad(wrong), h.Legend(legend), g.Group(inside), wrongLine(id, wrong))
}

// hiddenLegend is the legend of a [FieldGroup] that only screen readers say.
func hiddenLegend(text string) g.Node { return g.Group{h.Class("vh"), g.Text(text)} }

// needed draws a label, and says after it whether the field must be filled in.
func needed(label string, must bool) g.Node {
	return g.Group{g.Text(label), g.If(must, h.Span(h.Class("needed"), g.Text(" needed")))}
}

// shortHelp is how many words of help stand below a field; longer help opens by a tap.
const shortHelp = 8

// FieldHelp draws the help of the input with the id; nil for none.
func FieldHelp(id, help string) g.Node {
	if help == "" {
		return nil
	}
	line := h.P(h.Class("help"), h.ID(id+"-help"), g.Text(help))
	if len(strings.Fields(help)) <= shortHelp {
		return line
	}
	return h.Details(h.Class("morehelp"), h.Summary(g.Text("?"), ForReaders("Help")), line)
}

// Check draws a checkbox beside its label. Attributes of the input may stand among more.
func Check(name, value, label string, on bool, more ...g.Node) g.Node {
	return h.Label(h.Class("check"), h.Input(h.Type("checkbox"), h.Name(name), h.Value(value),
		g.If(on, h.Checked()), g.Group(more)), h.Span(g.Text(label)))
}

// Segments puts each [Segment] beside the one before.
func Segments(segments ...g.Node) g.Node { return h.Div(h.Class("segments"), g.Group(segments)) }

// Segment draws one radio button or checkbox of a row that looks like one control.
func Segment(kind, name, value string, on bool, label ...g.Node) g.Node {
	return h.Label(h.Input(h.Type(kind), h.Name(name), h.Value(value), g.If(on, h.Checked())), h.Span(label...))
}

// bad marks a field that something is wrong with.
func bad(wrong string) g.Node { return g.If(wrong != "", g.Attr("data-bad")) }

// invalid tells screen readers that something is wrong with an input, and where it says what.
func invalid(id, wrong string) g.Node {
	return g.If(wrong != "", g.Group{h.Aria("invalid", "true"), h.Aria("describedby", id+"-error")})
}

// wrongLine says what is wrong with a field, below it. More are attributes.
func wrongLine(id, wrong string, more ...g.Node) g.Node {
	if wrong == "" {
		return nil
	}
	return h.P(h.Class("wrong"), h.ID(id+"-error"), g.Group(more), Icon("care"), h.Span(g.Text(wrong)))
}
