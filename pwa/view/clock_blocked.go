package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/pwa/address"
)

// blocked lists the cards that nobody can do with what keeps people from them, and what lets somebody do them. Each
// cure has a button that makes the change.
func (p *ClockPage) blocked(f Frame) g.Node {
	return Panel("Nobody can do this", "", h.ID("blocked"),
		Hints(g.Map(p.Clock.Blocked, func(b forecast.Blocked) g.Node {
			return h.Li(Icon("care"), h.Span(g.Text(b.Title+" "), Small(b.Why())))
		})),
		g.Iff(len(p.Cures) > 0 && p.Help == nil, func() g.Node {
			return h.Ul(h.Class("fixes"), g.Map(p.Cures, func(cure *forecast.Mitigation) g.Node {
				return h.Li(h.P(h.B(g.Text(cure.Title))), Soft("Costs: "+cure.Cost+"."),
					ActForm(domID("cure", cure.Key), f.at(address.Clock), "fix", cure.Key, Plain, g.Text("Do this")))
			}))
		}))
}
