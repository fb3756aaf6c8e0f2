package view

import (
	g "maragu.dev/gomponents"

	"garlandry/calc"
)

// CalcList draws all calculators, by group; those of a group stand together.
func CalcList(f Frame, all []calc.Calculator) g.Node {
	var groups, rows g.Group
	for i := range all {
		c := &all[i]
		rows = append(rows, RowLink(domID("calc", c.Name), "/calc/"+c.Name, c.Title, c.Purpose, ""))
		if i+1 == len(all) || all[i+1].Group != c.Group {
			groups = append(
				groups,
				html(`<section class="panel" id="$"><div class="panelhead"><h2>$</h2></div><ul>{}</ul></section>`,
					texts{domID("calc", c.Group), c.Group}, rows),
			)
			rows = nil
		}
	}
	return html(
		`{}<p class="lead">One figure at a time, with its working and where it comes from. All of it works with no signal.</p>{}`,
		nil, Heading("", "Calculators"), groups,
	)
}
