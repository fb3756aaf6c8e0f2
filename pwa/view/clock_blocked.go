package view

import (
	"strconv"

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
		g.Iff(p.Help == nil, func() g.Node {
			shown := min(fixesShown, len(p.Cures))
			return g.Group{cures(f, p.Cures[:shown]), g.If(len(p.Cures) > shown, Disclosure("quietdetails",
				strconv.Itoa(len(p.Cures)-shown)+" more", h.ID("more-cures"), cures(f, p.Cures[shown:])))}
		}))
}

// cures draws changes as buttons.
func cures(f Frame, list []*forecast.Mitigation) g.Node {
	return g.If(len(list) > 0, h.Ul(h.Class("fixes"), g.Map(list, func(cure *forecast.Mitigation) g.Node {
		return h.Li(ActForm(domID("cure", cure.Key), f.at(address.Clock), "fix", cure.Key, Plain, g.Text(cure.Title)),
			Soft("Costs: "+cure.Cost+"."))
	})))
}
