package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
)

// TickButton draws a round tick that does an action. Label is what a screen reader says.
func TickButton(f Frame, on bool, a Action, label string) g.Node {
	return ActionForm(f, a, "tick",
		h.Button(h.Type("submit"), h.Class("box"), h.Aria("label", label), h.Aria("pressed", strconv.FormatBool(on)),
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
	LastCounted bool   // the last was a counting by eye, of LastAmount
	Then        g.Node // what to go on to once all are counted
}

func (t Tally) full() bool { return t.Total > 0 && t.Made >= t.Total }

// TallyPad draws the buttons that count: one more and all that are left, then two, five and ten more, or the way on
// once all are counted, then undo, and a field to set the count.
func TallyPad(f Frame, t Tally) g.Node {
	add := func(n int, style ButtonStyle, label string) g.Node {
		return Act(f, Action{Act: "add", Entity: t.Entity, N: Amount(n)}, style, g.Text(label))
	}
	one := Primary
	if t.full() { // the way on is what most people want next
		one = Plain
	}
	return h.Div(h.Class("tally"), h.ID(domID("tally", t.Entity)),
		h.Div(h.Class("tallyone"), add(1, one, "+1"), tallyRest(f, t)),
		g.If(!t.full(), h.Div(h.Class("tallymore"), add(2, "", "+2"), add(5, "", "+5"), add(10, "", "+10"))),
		g.If(t.full(), t.Then),
		h.Div(h.Class("tallylast"),
			Soft(t.last(f.Now)),
			g.Iff(t.LastOp != "", func() g.Node {
				return Act(f, Action{Act: "undo", Entity: t.Entity, Op: t.LastOp}, "quiet", Icon("undo"),
					g.Text(labelUndo+" "+t.lastWhat()))
			})),
		Disclosure("set", "Set the count",
			amountForm(f, Action{Act: "count", Entity: t.Entity}, domID("seen", t.Entity), t.Made,
				g.Text("How many are there?"))))
}

// tallyRest draws the button that counts all that are left at once.
func tallyRest(f Frame, t Tally) g.Node {
	if t.Made >= t.Total {
		return nil
	}
	return Act(f, Action{Act: "count", Entity: t.Entity, N: Amount(t.Total)}, Plain, g.Text(labelDone))
}

func (t Tally) last(now int64) string {
	if t.LastBy == "" {
		return "Nothing counted yet"
	}
	what := t.lastWhat()
	if t.LastCounted {
		what = "counted " + strconv.Itoa(t.LastAmount)
	}
	return t.LastBy + " " + what + ", " + Ago(now, t.LastAt)
}

// lastWhat names the last step of the count: "+5", or "the count of 12".
func (t Tally) lastWhat() string {
	if t.LastCounted {
		return "the count of " + strconv.Itoa(t.LastAmount)
	}
	return signed(t.LastAmount)
}

func signed(n int) string {
	if n >= 0 {
		return "+" + strconv.Itoa(n)
	}
	return "−" + strconv.Itoa(-n)
}

// Cautions draws a card's warnings where the hand is.
func Cautions(list []task.Caution) g.Node {
	texts := make([]string, len(list))
	for i, c := range list {
		texts[i] = c.Text
	}
	return warnings(texts)
}

// warnings draws each warning beside an icon; nothing for none.
func warnings(texts []string) g.Node {
	if len(texts) == 0 {
		return nil
	}
	return h.Div(h.Class("cautions"), h.Role("note"), h.Aria("label", labelCare),
		g.Map(texts, func(text string) g.Node { return h.P(Icon("care"), h.Span(g.Text(text))) }))
}

// Working draws how a figure came about, closed until asked for: each step with its formula and the mark of its
// source. Own, if given, is the address where the visitor may use their own figure.
func Working(label string, lines []figures.Line, own string) g.Node {
	if len(lines) == 0 {
		return g.Group{}
	}
	return Disclosure("working", label,
		h.Dl(g.Map(lines, func(l figures.Line) g.Node {
			return h.Div(h.Dt(g.Text(l.What)),
				h.Dd(g.If(l.How != "", h.Span(h.Class("formula"), g.Text(l.How))),
					h.B(g.Text(l.Result)),
					SourceMark(l.Source)))
		})),
		g.If(own != "", h.P(PlainLink(own, "", "Use my own number"))))
}

// SourceMark says how far a figure can be trusted and where it comes from.
func SourceMark(s figures.Source) g.Node {
	if s.Mark == "" && s.Text == "" {
		return g.Group{}
	}
	return h.Small(h.Class("source"),
		g.If(s.Mark != "", h.Span(h.Class("markof"), g.Text(string(s.Mark)))),
		g.If(s.Text != "", g.Text(" "+s.Text)))
}
