package view

import (
	"strconv"

	g "maragu.dev/gomponents"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
)

// TickRow draws a row of a list with a round tick at its left: one tap does the deed, the row's text opens more.
// Label is what the tick says to a screen reader.
func TickRow(f Frame, id string, on bool, d Deed, label string, inside ...g.Node) g.Node {
	return html(`<li id="$" class="tickrow"{}>{}<div class="rowtext">{}</div></li>`, texts{id}, set(on, "data-on"),
		TickButton(f, on, d, label), these(inside...))
}

// TickButton draws the round tick alone.
func TickButton(f Frame, on bool, d Deed, label string) g.Node {
	return DeedForm(f, d, "tick", html(`<button type="submit" class="box" aria-label="$" aria-pressed="$">
		<span class="ring">{tick}</span></button>`, texts{label, strconv.FormatBool(on)}))
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
}

// TallyPad draws the buttons that count: one more large, then two, five and ten more, take back, and a field to set the
// count as seen.
func TallyPad(f Frame, t Tally) g.Node {
	add := func(n int, class ButtonStyle, label string) g.Node {
		return Act(f, Deed{Act: "add", Entity: t.Entity, N: Amount(n)}, class, g.Text(label))
	}
	return html(`<div class="tally" id="$">
		{}
		<div class="tallymore">{}{}{}</div>
		<div class="tallylast">
			<p class="soft">$</p>
			{}</div>
		<details class="set"><summary>Count again</summary>
			{}</details></div>`, texts{domID("tally", t.Entity), t.last(f.Now)},
		add(1, "go", "One more"), add(2, "", "+2"), add(5, "", "+5"), add(10, "", "+10"),
		g.Iff(t.LastOp != "", func() g.Node {
			return Act(f, Deed{Act: "undo", Entity: t.Entity, Op: t.LastOp}, "quiet", Icon("undo"),
				g.Text("Take back "+t.lastWhat()))
		}),
		DeedForm(
			f,
			Deed{Act: "count", Entity: t.Entity},
			"inline",
			html(`<label for="$">How many are there</label>`, texts{domID("seen", t.Entity)}),
			html(`<input id="$" type="text" name="$" inputmode="numeric" autocomplete="off" required value="$">`,
				texts{domID("seen", t.Entity), FieldAmount, strconv.Itoa(t.Made)}),
			txt(`button type="submit"`, "Set"),
		))
}

func (t Tally) last(now int64) string {
	if t.LastBy == "" {
		return "Nothing counted yet"
	}
	return t.LastBy + " " + t.lastWhat() + ", " + Ago(now, t.LastAt)
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

// Cautions draws warnings where the hand is.
func Cautions(list []task.Caution) g.Node {
	if len(list) == 0 {
		return nothing
	}
	return el(`div class="cautions" role="note" aria-label="Take care"`,
		each(len(list), func(i int) g.Node {
			c := list[i]
			return html(`<p>{care}<span>$</span></p>`, texts{c.Text})
		}))
}

// Working draws how a figure came about, closed until asked for: each step with its formula and the mark of its
// source. Own, if given, is the address where the visitor may use their own figure.
func Working(label string, lines []figures.Line, own string) g.Node {
	if len(lines) == 0 {
		return nothing
	}
	return html(`<details class="working"><summary>$</summary>
		<dl>{}</dl>
		{}</details>`, texts{label},
		each(len(lines), func(i int) g.Node {
			l := lines[i]
			return html(`<div><dt>$</dt><dd>
					{}
					<b>$</b>
					{}</dd></div>`, texts{l.What, l.Result}, g.If(l.How != "", txt(`span class="formula"`, l.How)), SourceMark(l.Source))
		}),
		g.If(own != "", html(`<p><a class="plainlink" href="$">Use my own figure</a></p>`, texts{own})))
}

// SourceMark says how far a figure can be trusted and where it comes from.
func SourceMark(s figures.Source) g.Node {
	if s.Mark == "" && s.Text == "" {
		return nothing
	}
	return el(`small class="source"`, g.If(s.Mark != "", txt(`span class="markof"`, string(s.Mark))),
		g.If(s.Text != "", g.Text(" "+s.Text)))
}
