package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// reloadKey is the card on which what comes home again is ticked back into the car.
const reloadKey = "card/reload"

// kitLines lists the lines of the pack list that come home again and went along, or were to.
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

// cardKit draws what comes home again as rows to tick back into the car, on the one card that is about it: what is
// there, by whom and when, and what is still missing.
func cardKit(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	lines := kitLines(p)
	if c.Key != reloadKey || len(lines) == 0 {
		return nothing
	}
	var missing []string
	for _, l := range lines {
		if l.Back < l.Out() {
			missing = append(missing, l.Name)
		}
	}
	said := html(`<p class="waits">{wait}Still missing: $</p>`, texts{strings.Join(missing, ", ")})
	if len(missing) == 0 {
		said = fixed(`<p class="alldone">{tick}All back in the car.</p>`)
	}
	return Panel("Back into the car", strconv.Itoa(len(lines)-len(missing))+" of "+strconv.Itoa(len(lines)), said,
		el(`ul class="list inset"`, each(len(lines), func(i int) g.Node { return kitRow(f, j, lines[i]) })))
}

func kitRow(f Frame, j job.Job, l packing.Line) g.Node {
	out := l.Out()
	on := l.Back >= out
	deed, label := Deed{Act: "back", Entity: l.Key, N: Amount(out)}, "Back in the car: "+l.Name
	if on {
		deed, label = Deed{Act: "back", Entity: l.Key, N: Amount(0)}, "Not in the car: "+l.Name
	}
	below := ""
	if r := j.State.Register(l.Key, "back").Readings; l.Back > 0 && len(r) > 0 {
		below = number(l.Back) + " of " + number(out) + " back, " + authorName(f.Role, r[0].Author) + ", " + when(f,
			r[0].Stamp)
	}
	return html(`<li id="$" class="tickrow" data-row{}>
		{}
		<details class="some">
			<summary>
				<span class="rowtext">
					<span class="rowtitle">$</span>
					{}</span>
				<span class="rowfigure">${}</span>
				{open}</summary>
			{}</details></li>`, texts{domID("back", l.Key), l.Name, number(out)},
		set(on, "data-on"), TickButton(f, on, deed, label),
		g.If(below != "", txt(`span class="soft"`, below)),
		g.If(l.Unit != "", txt(`span class="soft unit"`, l.Unit)),
		packSome(f, l, "back", "are back", "Who did what", l.Back))
}
