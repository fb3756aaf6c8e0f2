package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/calc"
)

// CalcList draws all calculators, by group.
func CalcList(f Frame, all []calc.Calculator) g.Node {
	var groups []string
	by := map[string][]calc.Calculator{}
	for _, c := range all {
		if len(by[c.Group]) == 0 {
			groups = append(groups, c.Group)
		}
		by[c.Group] = append(by[c.Group], c)
	}
	return g.Group{
		Heading("", "Calculators"),
		h.P(h.Class("lead"), g.Text("One figure at a time, with its working and where it comes from. All of it works with no signal.")),
		g.Map(groups, func(group string) g.Node {
			return h.Section(h.Class("panel"), h.ID(domID("calc", group)), h.Div(h.Class("panelhead"), h.H2(g.Text(group))),
				h.Ul(g.Map(by[group], func(c calc.Calculator) g.Node {
					return RowLink(domID("calc", c.Name), "/calc/"+c.Name, c.Title, c.Purpose, "")
				})))
		}),
	}
}
