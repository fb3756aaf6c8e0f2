package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/packing"
)

// notNeeded draws the button that sets a pack line aside.
func notNeeded(f Frame, l packing.Line) g.Node {
	return Act(f, Action{Act: "unneeded", Entity: l.Key}, "quiet", g.Text(labelNotNeeded), ForReaders(": "+l.Name))
}

// unneededLines draws the lines that somebody set aside, struck through, each with a button to undo it. Left shows only
// those that were packed and have to come out.
func unneededLines(f Frame, pack []packing.Bag, fits lineFits, left bool) g.Node {
	var rows []g.Node
	for _, bag := range pack {
		for _, line := range bag.Lines {
			if line.Unneeded && shownLine(line, left) && fits(bag, line) {
				rows = append(rows, unneededLine(f, line))
			}
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return PanelOf("bag noprint", "", "", h.ID("unneeded"), PanelHead("pack", labelNotNeeded, strconv.Itoa(len(rows))),
		List(g.Group(rows)))
}

func unneededLine(f Frame, l packing.Line) g.Node {
	return SplitRow(domID("row", l.Key),
		[]g.Node{h.S(h.Class("rowtitle"), g.Text(l.Name)), ForReaders(": not needed"),
			g.Iff(l.Have > 0, func() g.Node {
				return Act(f, Action{Act: "unpack", Entity: l.Key, N: Amount(0)}, "quiet",
					g.Text("Take "+number(l.Have)+" out"), ForReaders(": "+l.Name))
			})},
		Act(f, Action{Act: "needed", Entity: l.Key}, "", Icon("undo"), g.Text(labelUndo), ForReaders(": "+l.Name)))
}
