package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan"
)

// Heading draws a page's heading: a line of context above, then the h1. Actions stand beside it where there is room.
func Heading(context, title string, actions ...g.Node) g.Node {
	return el(`div class="heading"`,
		el("div", g.If(context != "", txt(`p class="context"`, context)), txt("h1", title)),
		g.If(len(actions) > 0, el(`div class="actions"`, g.Group(actions))))
}

// Panel draws a panel with an optional heading and a small figure at its right.
func Panel(title, figure string, inside ...g.Node) g.Node {
	return el(`section class="panel"`,
		g.Iff(title != "", func() g.Node {
			return el(`div class="panelhead"`, txt("h2", title), g.If(figure != "", txt(`span class="soft"`, figure)))
		}),
		g.Group(inside))
}

// Big draws the number first and large, then what it counts: 48 clusters.
func Big(n, what string) g.Node {
	return el(`p class="big"`, txt("b", n), g.Text(" "), txt("span", what))
}

// RowLink draws a row of a list that opens something: a title, a line below, a figure at the right.
func RowLink(id, href, title, below, right string) g.Node {
	return el("li", g.If(id != "", h.ID(id)), el(`a class="row"`, h.Href(href),
		el(`span class="rowtext"`, txt(`span class="rowtitle"`, title), g.If(below != "", txt(`span class="soft"`, below))),
		g.If(right != "", txt(`span class="rowfigure"`, right)), Icon("open")))
}

// TickRow draws a row of a list with a round tick at its left: one tap does the deed, the row's text opens more.
// Label is what the tick says to a screen reader.
func TickRow(f Frame, id string, on bool, d Deed, label string, inside ...g.Node) g.Node {
	return el("li", h.ID(id), h.Class("tickrow"), g.If(on, g.Attr("data-on")), TickButton(f, on, d, label), el(`div class="rowtext"`, g.Group(inside)))
}

// TickButton draws the round tick alone.
func TickButton(f Frame, on bool, d Deed, label string) g.Node {
	return DeedForm(f, d, "tick", el(`button type="submit" class="box"`, h.Aria("label", label), h.Aria("pressed", strconv.FormatBool(on)),
		el(`span class="ring"`, Icon("tick"))))
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
	return el(`div class="tally"`, h.ID(domID("tally", t.Entity)),
		add(1, "go", "One more"),
		el(`div class="tallymore"`, add(2, "", "+2"), add(5, "", "+5"), add(10, "", "+10")),
		el(`div class="tallylast"`,
			txt(`p class="soft"`, t.last(f.Now)),
			g.Iff(t.LastOp != "", func() g.Node {
				return Act(f, Deed{Act: "undo", Entity: t.Entity, Op: t.LastOp}, "quiet", Icon("undo"), g.Text("Take back "+signed(t.LastAmount)))
			})),
		el(`details class="set"`, txt("summary", "Count again"),
			DeedForm(f, Deed{Act: "count", Entity: t.Entity}, "inline",
				el("label", h.For(domID("seen", t.Entity)), g.Text("How many are there")),
				el("input", h.ID(domID("seen", t.Entity)), h.Type("text"), h.Name(FieldAmount), g.Attr("inputmode", "numeric"), h.AutoComplete("off"), h.Required(), h.Value(strconv.Itoa(t.Made))),
				txt(`button type="submit"`, "Set"))))
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
	return el(`div class="cautions" role="note" aria-label="Take care"`,
		g.Map(list, func(c plan.Caution) g.Node { return el("p", Icon("care"), txt("span", c.Text)) }))
}

// Working draws how a figure came about, closed until asked for: each step with its formula and the mark of its
// source. Own, if given, is the address where the visitor may use their own figure.
func Working(label string, lines []plan.Line, own string) g.Node {
	if len(lines) == 0 {
		return g.Group{}
	}
	return el(`details class="working"`, txt("summary", label),
		el("dl", g.Map(lines, func(l plan.Line) g.Node {
			return el("div", txt("dt", l.What), el("dd",
				g.If(l.How != "", txt(`span class="formula"`, l.How)),
				txt("b", l.Result),
				SourceMark(l.Source)))
		})),
		g.If(own != "", el("p", el("a", h.Href(own), g.Text("Use my own figure")))))
}

// SourceMark says how far a figure can be trusted and where it comes from.
func SourceMark(s plan.Source) g.Node {
	if s.Mark == "" && s.Text == "" {
		return g.Group{}
	}
	return el(`small class="source"`, g.If(s.Mark != "", txt(`span class="markof"`, string(s.Mark))), g.If(s.Text != "", g.Text(" "+s.Text)))
}

// Empty draws an empty state that teaches: what would stand here, an example, one way on.
func Empty(title, teach, example string, button g.Node) g.Node {
	return el(`section class="empty"`, emptyString(), txt("h2", title), txt("p", teach),
		g.If(example != "", txt(`p class="soft"`, example)), g.If(button != nil, button))
}

// emptyString is a garland still without balloons.
func emptyString() g.Node {
	beads := make([]g.Node, 0, 7)
	for i := range 7 {
		x := float64(16 + 24*i)
		beads = append(beads, el("circle", g.Attr("cx", figure(x, 1)), g.Attr("cy", figure(40-float64(i*(6-i))*2.6, 1)), g.Attr("r", "9"), g.Attr("class", "todo")))
	}
	return el(`svg class="emptystring" viewBox="0 0 176 54" aria-hidden="true" focusable="false"`, g.Group(beads))
}

// ButtonLink draws a link that looks and works as a button. Class: "go", "quiet" or empty.
func ButtonLink(href, class string, label ...g.Node) g.Node {
	return el("a", h.Class("button "+class), h.Href(href), g.Group(label))
}

// Beside puts a list beside what was opened from it on a wide screen; a narrow one shows the detail alone.
func Beside(list, detail g.Node) g.Node {
	return el(`div class="beside"`, el(`div class="besidelist"`, list), el(`div class="besidedetail"`, detail))
}
