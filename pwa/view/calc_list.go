package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/calc"
	"garlandry/pwa/address"
)

// CalcList draws all calculators, by group; those of a group stand together.
func CalcList(f Frame, all []calc.Calculator) g.Node {
	var groups, rows g.Group
	for i := range all {
		c := &all[i]
		rows = append(rows, RowLink(domID("calc", c.Name), address.Calculator.Path(c.Name), c.Title, c.Purpose, ""))
		if i+1 == len(all) || all[i+1].Group != c.Group {
			groups = append(
				groups,
				Panel(c.Group, "", h.ID(domID("calc", c.Group)), h.Ul(rows)),
			)
			rows = nil
		}
	}
	return g.Group{
		Heading("", "Calculators"),
		Lead("One figure at a time, with its maths and sources. Works with no signal."),
		groups,
	}
}
