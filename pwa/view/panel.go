package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// Heading draws a page's heading: a line of context above, then the h1. Actions stand beside it where there is room.
func Heading(context, title string, actions ...g.Node) g.Node {
	return heading("context", context, title, actions)
}

// jobHeading draws the heading of a page of a job. The job's title stands above it on paper only, since the way back
// says it on screen.
func jobHeading(j job.Job, title string, actions ...g.Node) g.Node {
	return heading("context onpaper", untitled(j.Brief.Title), title, actions)
}

func heading(class, context, title string, actions g.Group) g.Node {
	return h.Div(h.Class("heading"),
		h.Div(g.If(context != "", h.P(h.Class(class), g.Text(context))), h.H1(g.Text(title))),
		g.If(len(actions) > 0, h.Div(h.Class("actions"), actions)))
}

// Panel draws a boxed section with an optional heading and a small figure at its right. Attributes but the class may
// stand among what is inside.
func Panel(title, figure string, inside ...g.Node) g.Node {
	return PanelOf("", title, figure, inside...)
}

// PanelOf draws a [Panel] with a class of its own beside that of all panels.
func PanelOf(class, title, figure string, inside ...g.Node) g.Node {
	if class != "" {
		class = " " + class
	}
	return h.Section(h.Class("panel"+class), g.If(title != "", PanelHead("", title, figure)), g.Group(inside))
}

// PanelHead draws the heading of a panel: an icon, a title, a small figure at the right. Icon and figure may be empty.
func PanelHead(icon, title, figure string) g.Node {
	return h.Div(h.Class("panelhead"), h.H2(g.If(icon != "", Icon(icon)), g.Text(title)),
		g.If(figure != "", Small(figure)))
}

// PartOf draws a part of a long form. Title and lead may be empty.
func PartOf(title, lead string, inside ...g.Node) g.Node {
	return Panel(title, "", g.If(lead != "", Soft(lead)), Fields(inside...))
}

// Folded draws a panel that is closed until asked for, unless open is set.
func Folded(id, title string, open bool, inside ...g.Node) g.Node {
	return Disclosure("panel folded", title, h.ID(id), g.If(open, g.Attr("open")), Fields(inside...))
}

// Disclosure draws a line to tap that opens what is inside. Attributes may stand among it.
func Disclosure(class, label string, inside ...g.Node) g.Node {
	return h.Details(h.Class(class), h.Summary(g.Text(label)), g.Group(inside))
}

// ResultPanel draws what a form comes to. Screen readers say the sentence when it changes.
func ResultPanel(id, sentence string, inside ...g.Node) g.Node {
	return PanelOf("recount", "", "", h.ID(id), says(sentence), g.Group(inside))
}

// says marks the page's figure with a sentence that screen readers announce whenever it changes. A page has one.
func says(sentence string) g.Node { return h.Data("say", sentence) }

// Big draws the number first and large, then what it counts: 48 clusters.
func Big(n, what string) g.Node {
	return h.P(h.Class("big"), h.B(g.Text(n)), g.Text(" "), h.Span(g.Text(what)))
}

// Empty draws an empty state that teaches: what would stand here, an example, one way on. Example and button may be
// empty.
func Empty(title, teach, example string, button g.Node) g.Node {
	return h.Section(h.Class("empty"), emptyString(), h.H2(g.Text(title)), h.P(g.Text(teach)),
		g.If(example != "", Soft(example)), button)
}

// emptyString is a garland still without balloons.
func emptyString() g.Node {
	beads := make(g.Group, 7)
	for i := range beads {
		x := float64(16 + 24*i)
		beads[i] = g.El("circle", g.Attr("cx", figure(x, 1)), g.Attr("cy", figure(40-float64(i*(6-i))*2.6, 1)),
			g.Attr("r", "9"), h.Class("todo"))
	}
	return h.SVG(h.Class("emptystring"), g.Attr("viewBox", "0 0 176 54"), decorative(), beads)
}

// Beside puts a list beside what was opened from it on a wide screen; a narrow one shows the detail alone.
func Beside(list, detail g.Node) g.Node {
	return h.Div(h.Class("beside"), h.Div(h.Class("besidelist"), list), h.Div(h.Class("besidedetail"), detail))
}

// Columns puts two halves side by side where there is room, else one below the other. Attributes may stand in each.
func Columns(left, right g.Group) g.Node {
	return h.Div(h.Class("columns"), h.Div(left), h.Div(right))
}

// Narrow draws a page of few words, in a column that is easy to read.
func Narrow(inside ...g.Node) g.Node { return h.Div(h.Class("narrow"), g.Group(inside)) }

// decorative hides a drawing from screen readers, since text beside it says the same.
func decorative() g.Node { return g.Group{h.Aria("hidden", "true"), g.Attr("focusable", "false")} }
