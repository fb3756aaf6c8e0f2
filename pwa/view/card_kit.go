package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// reloadKey is the key of the card for loading the car again.
const reloadKey = "card/reload"

// kitLines lists the pack lines of things that go out and come home again.
func kitLines(p plan.Plan) (lines []packing.Line) {
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			if line.Out() > 0 {
				lines = append(lines, line)
			}
		}
	}
	return lines
}

// cardKit draws the things that come home again, on the card for loading the car. Each has a tick, who ticked it and
// when. What is missing stands above.
func cardKit(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	lines := kitLines(p)
	if c.Key != reloadKey || len(lines) == 0 {
		return nil
	}
	var missing []string
	for _, l := range lines {
		if l.Back < l.Out() {
			missing = append(missing, l.Name)
		}
	}
	said := Notice(Waits, "wait", "Still missing: "+strings.Join(missing, ", "))
	if len(missing) == 0 {
		said = Notice(AllDone, "tick", "All back in the car.")
	}
	return Panel("Back into the car", strconv.Itoa(len(lines)-len(missing))+" of "+strconv.Itoa(len(lines)), said,
		List(g.Map(lines, func(x packing.Line) g.Node { return kitRow(f, j, x) })))
}

func kitRow(f Frame, j job.Job, l packing.Line) g.Node {
	out := l.Out()
	on := l.Back >= out
	action, label := Action{Act: "back", Entity: l.Key, N: Amount(out)}, LabelInCar+l.Name
	if on {
		action, label = Action{Act: "back", Entity: l.Key, N: Amount(0)}, LabelNotInCar+l.Name
	}
	below := ""
	if r := j.State.Register(l.Key, "back").Readings; l.Back > 0 && len(r) > 0 {
		below = number(l.Back) + " of " + number(out) + " back, " + authorName(f.Role, r[0].Author) + ", " + when(f,
			r[0].Stamp)
	}
	return h.Li(h.ID(domID("back", l.Key)), h.Class("tickrow"), g.Attr("data-row"), g.If(on, g.Attr("data-on")),
		TickButton(f, on, action, label),
		h.Details(h.Class("some"),
			h.Summary(RowText(l.Name, g.If(below != "", Small(below))),
				RowFigure(number(out), l.Unit),
				Icon("open")),
			packSome(f, l, "back", "are back", l.Back)))
}
