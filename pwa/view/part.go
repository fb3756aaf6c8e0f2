package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan"
)

// Heading draws a page's heading: a line of context above, then the h1. Actions stand beside it where there is room.
func Heading(context, title string, actions ...g.Node) g.Node {
	return h.Div(h.Class("heading"),
		h.Div(g.If(context != "", h.P(h.Class("context"), g.Text(context))), h.H1(g.Text(title))),
		g.If(len(actions) > 0, h.Div(h.Class("actions"), g.Group(actions))))
}

// Panel draws a panel with an optional heading and a small figure at its right.
func Panel(title, figure string, inside ...g.Node) g.Node {
	return h.Section(h.Class("panel"),
		g.Iff(title != "", func() g.Node {
			return h.Div(h.Class("panelhead"), h.H2(g.Text(title)), g.If(figure != "", h.Span(h.Class("soft"), g.Text(figure))))
		}),
		g.Group(inside))
}

// Big draws the number first and large, then what it counts: 48 clusters.
func Big(n, what string) g.Node {
	return h.P(h.Class("big"), h.B(g.Text(n)), g.Text(" "), h.Span(g.Text(what)))
}

// RowLink draws a row of a list that opens something: a title, a line below, a figure at the right.
func RowLink(id, href, title, below, right string) g.Node {
	return h.Li(g.If(id != "", h.ID(id)), h.A(h.Class("row"), h.Href(href),
		h.Span(h.Class("rowtext"), h.Span(h.Class("rowtitle"), g.Text(title)), g.If(below != "", h.Span(h.Class("soft"), g.Text(below)))),
		g.If(right != "", h.Span(h.Class("rowfigure"), g.Text(right))), Icon("open")))
}

// TickRow draws a row of a list with a round tick at its left: one tap does the deed, the row's text opens more.
// Label is what the tick says to a screen reader.
func TickRow(f Frame, id string, on bool, d Deed, label string, inside ...g.Node) g.Node {
	return h.Li(h.ID(id), h.Class("tickrow"), g.If(on, g.Attr("data-on")), TickButton(f, on, d, label), h.Div(h.Class("rowtext"), g.Group(inside)))
}

// TickButton draws the round tick alone.
func TickButton(f Frame, on bool, d Deed, label string) g.Node {
	return DeedForm(f, d, "tick", h.Button(h.Type("submit"), h.Class("box"), h.Aria("label", label), h.Aria("pressed", strconv.FormatBool(on)),
		h.Span(h.Class("ring"), Icon("tick"))))
}

// Tally is what a [TallyPad] shows and changes.
type Tally struct {
	Entity      string
	Made, Total int
	Unit        string
	LastBy      string // who added last; empty: nobody yet
	LastAmount  int
	LastAt      int64
	LastOp      string // to take back; empty: nothing to take back
}

// TallyPad draws the buttons that count: one more large, then two, five and ten more, take back, and a field to set the
// count as seen.
func TallyPad(f Frame, t Tally) g.Node {
	add := func(n int, class, label string) g.Node {
		return Act(f, Deed{Act: "add", Entity: t.Entity, N: Amount(n)}, class, g.Text(label))
	}
	return h.Div(h.Class("tally"), h.ID(domID("tally", t.Entity)),
		add(1, "go", "One more"),
		h.Div(h.Class("tallymore"), add(2, "", "+2"), add(5, "", "+5"), add(10, "", "+10")),
		h.Div(h.Class("tallylast"),
			h.P(h.Class("soft"), g.Text(t.last(f.Now))),
			g.Iff(t.LastOp != "", func() g.Node {
				return Act(f, Deed{Act: "undo", Entity: t.Entity, Op: t.LastOp}, "quiet", Icon("undo"), g.Text("Take back "+signed(t.LastAmount)))
			})),
		h.Details(h.Class("set"), h.Summary(g.Text("Count again")),
			DeedForm(f, Deed{Act: "count", Entity: t.Entity}, "inline",
				h.Label(h.For(domID("seen", t.Entity)), g.Text("How many are there")),
				h.Input(h.ID(domID("seen", t.Entity)), h.Type("text"), h.Name(FieldAmount), g.Attr("inputmode", "numeric"), h.AutoComplete("off"), h.Required(), h.Value(strconv.Itoa(t.Made))),
				h.Button(h.Type("submit"), g.Text("Set")))))
}

func (t Tally) last(now int64) string {
	if t.LastBy == "" {
		return "Nothing counted yet"
	}
	return t.LastBy + " " + signed(t.LastAmount) + ", " + Ago(now, t.LastAt)
}

func signed(n int) string {
	if n >= 0 {
		return "+" + strconv.Itoa(n)
	}
	return "−" + strconv.Itoa(-n)
}

// Cautions draws warnings where the hand is.
func Cautions(list []plan.Caution) g.Node {
	if len(list) == 0 {
		return g.Group{}
	}
	return h.Div(h.Class("cautions"), h.Role("note"), h.Aria("label", "Take care"),
		g.Map(list, func(c plan.Caution) g.Node { return h.P(Icon("care"), h.Span(g.Text(c.Text))) }))
}

// Working draws how a figure came about, closed until asked for: each step with its formula and the mark of its
// source. Own, if given, is the address where the visitor may use their own figure.
func Working(label string, lines []plan.Line, own string) g.Node {
	if len(lines) == 0 {
		return g.Group{}
	}
	return h.Details(h.Class("working"), h.Summary(g.Text(label)),
		h.Dl(g.Map(lines, func(l plan.Line) g.Node {
			return h.Div(h.Dt(g.Text(l.What)), h.Dd(
				g.If(l.How != "", h.Span(h.Class("formula"), g.Text(l.How))),
				h.B(g.Text(l.Result)),
				SourceMark(l.Source)))
		})),
		g.If(own != "", h.P(h.A(h.Href(own), g.Text("Use my own figure")))))
}

// SourceMark says how far a figure can be trusted and where it comes from.
func SourceMark(s plan.Source) g.Node {
	if s.Mark == "" && s.Text == "" {
		return g.Group{}
	}
	return h.Small(h.Class("source"), g.If(s.Mark != "", h.Span(h.Class("markof"), g.Text(string(s.Mark)))), g.If(s.Text != "", g.Text(" "+s.Text)))
}

// Empty draws an empty state that teaches: what would stand here, an example, one way on.
func Empty(title, teach, example string, button g.Node) g.Node {
	return h.Section(h.Class("empty"), emptyString(), h.H2(g.Text(title)), h.P(g.Text(teach)),
		g.If(example != "", h.P(h.Class("soft"), g.Text(example))), g.If(button != nil, button))
}

// emptyString is a garland still without balloons.
func emptyString() g.Node {
	beads := make([]g.Node, 0, 7)
	for i := range 7 {
		x := float64(16 + 24*i)
		beads = append(beads, g.El("circle", g.Attr("cx", figure(x, 1)), g.Attr("cy", figure(40-float64(i*(6-i))*2.6, 1)), g.Attr("r", "9"), g.Attr("class", "todo")))
	}
	return h.SVG(h.Class("emptystring"), g.Attr("viewBox", "0 0 176 54"), g.Attr("aria-hidden", "true"), g.Attr("focusable", "false"), g.Group(beads))
}

// ButtonLink draws a link that looks and works as a button. Class: "go", "quiet" or empty.
func ButtonLink(href, class string, label ...g.Node) g.Node {
	return h.A(h.Class("button "+class), h.Href(href), g.Group(label))
}

// Beside puts a list beside what was opened from it on a wide screen; a narrow one shows the detail alone.
func Beside(list, detail g.Node) g.Node {
	return h.Div(h.Class("beside"), h.Div(h.Class("besidelist"), list), h.Div(h.Class("besidedetail"), detail))
}
