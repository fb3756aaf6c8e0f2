package view

import (
	"fmt"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/pwa/address"
)

// helpParts draws what would help and what to leave out first. Both take a while to work out, so one has to ask. Only
// the owner sees what would help, because it shows prices.
func (p *ClockPage) helpParts(f Frame) g.Node {
	switch {
	case p.Help == nil && p.Looking:
		if !f.Owns() {
			return Panel(labelLeaveOut, "", looking("Looking for what to leave out first…"),
				Soft(labelCarryOn))
		}
		return Panel(
			labelHelp,
			"",
			looking("Looking for what would help…"),
			Soft(labelCarryOn),
		)
	case p.Help == nil && !f.Owns():
		return PanelOf("noprint", "", "",
			h.P(ButtonLink(f.at(address.Clock)+"?help=1", "", Icon("care"), g.Text("What to leave out first"))))
	case p.Help == nil:
		title := labelHelp
		if p.Clock.Odds >= forecast.Target && len(p.Clock.Blocked) == 0 {
			title = "What could still help"
		}
		return PanelOf("noprint", title, "", h.ID("help"),
			h.P(g.Text("More hands, work at home, an earlier start, a plainer look, or leaving things out.")),
			h.P(ButtonLink(f.at(address.Clock)+"?help=1", "go", Icon("care"), g.Text("Look for help"))))
	}
	return g.Group{g.Iff(f.Owns(), func() g.Node { return fixList(f, p) }), leaveOut(p.Clock, p.Help.Cuts)}
}

// looking says that something is being worked out in the background.
func looking(what string) g.Node {
	return h.P(h.Class("looking"), h.Role("status"), Icon("wait"), h.B(g.Text(what)))
}

// fixList draws the fixes. Each has the odds after it, its cost, and a button that makes the change.
func fixList(f Frame, p *ClockPage) g.Node {
	again := g.Iff(p.Looking, func() g.Node { return looking("The job changed: looking again…") })
	if len(p.Help.Fixes) == 0 {
		advice := "No change helps much. Ask the client what can be left out."
		if p.Clock.Odds >= 0.95 {
			advice = "No change needed."
		}
		return Panel(labelHelp, "", again, h.P(g.Text(advice)))
	}
	return Panel(labelHelp, "", h.ID("help"),
		h.Ul(h.Class("fixes"), h.ID("fixes"),
			g.Map(p.Help.Fixes, func(fix forecast.Fix) g.Node {
				var costs []string
				style := Plain
				if fix.Reaches {
					style = Primary
				}
				for k := range fix.Mitigations {
					costs = append(costs, fix.Mitigations[k].Cost)
				}
				return h.Li(h.P(h.B(g.Text(fix.Title()))),
					Soft(fmt.Sprintf("%s on time, safe bet %s. Costs: %s.",
						capital(forecast.Percent(fix.Forecast.Odds)), clockTime(fix.Forecast, fix.Forecast.Ninety),
						strings.Join(costs, "; "))),
					g.Iff(len(fix.Forecast.Blocked) > 0, func() g.Node { return Soft(fix.Forecast.Without()) }),
					ActForm(domID("fix", fix.Key), f.at(address.Clock), "fix", fix.Key, style, g.Text("Do this")))
			})),
		again,
		Soft("You can undo each, now or in History."))
}

// leaveOut draws in which order to leave things out.
func leaveOut(c *forecast.Forecast, cuts []forecast.Cut) g.Node {
	if len(cuts) == 0 {
		return nil
	}
	rows := make(g.Group, len(cuts))
	for i := range cuts {
		cut := &cuts[i]
		what := "should be there"
		if cut.Priority == "could" {
			what = "nice to have"
		}
		if i > 0 {
			what += ", with all above"
		}
		rows[i] = h.Li(h.B(g.Text(cut.Title)), g.Text(" "),
			Small(fmt.Sprintf("%s: %s on time, safe bet %s", what, forecast.Percent(cut.Odds),
				clockTime(c, cut.Ninety))))
	}
	return Panel(
		labelLeaveOut,
		"",
		h.Ol(h.Class("steps"), h.ID("cutline"), rows),
		Soft("Must-haves are never on this list."),
	)
}
