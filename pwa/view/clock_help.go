package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/pwa/address"
)

// helpParts draws what would help. It takes a while to work out, so it may still be looked for. Only the owner sees
// it, because it shows prices.
func (p *ClockPage) helpParts(f Frame) g.Node {
	switch {
	case p.Help == nil && p.Looking:
		if !f.Owns() {
			return Panel(labelLeaveOut, "", h.ID("leave-out"), looking("Looking for what to leave out first…"),
				Soft(labelCarryOn))
		}
		return Panel(
			labelHelp,
			"",
			h.ID("help"),
			says("Looking for what would help…"),
			looking("Looking for what would help…"),
			Soft(labelCarryOn),
		)
	case p.Help == nil && !f.Owns():
		return PanelOf("noprint", "", "",
			h.P(ButtonLink(f.at(address.Clock)+"?help=1#leave-out", "", Icon("care"), g.Text("What to leave out first"))))
	case p.Help == nil:
		title, style := labelHelp, Primary
		if !p.Clock.Wanting() {
			title, style = "What could still help", Plain
		}
		return PanelOf("noprint", title, "", h.ID("help"),
			h.P(ButtonLink(f.at(address.Clock)+"?help=1#help", style, Icon("care"), g.Text("Look for help"))))
	}
	return g.Iff(f.Owns(), func() g.Node { return fixList(f, p) })
}

// looking says that something is being worked out in the background.
func looking(what string) g.Node {
	return h.P(h.Class("looking"), h.Role("status"), Icon("wait"), h.B(g.Text(what)))
}

// fixesShown is how many fixes stand there at once; more open by a tap.
const fixesShown = 3

// fixList draws the fixes, the best one first. Each is a button that says what it does and what it buys.
func fixList(f Frame, p *ClockPage) g.Node {
	again := g.Iff(p.Looking, func() g.Node { return looking("The job changed: looking again…") })
	fixes := p.Help.Fixes
	if len(fixes) == 0 {
		advice := "No change helps much. Ask the client what can be left out."
		if p.Clock.Odds >= 0.95 {
			advice = "No change needed."
		}
		return Panel(labelHelp, "", h.ID("help"), says(advice), again, h.P(g.Text(advice)))
	}
	rows := make([]g.Node, len(fixes))
	for i := range fixes {
		style := Plain
		if i == 0 && p.Clock.Wanting() {
			style = Primary
		}
		rows[i] = fixRow(f, p.Clock, &fixes[i], style)
	}
	shown := min(fixesShown, len(rows))
	return Panel(labelHelp, "", h.ID("help"), says(Many(len(rows), "way")+" to help"),
		h.Ul(h.Class("fixes"), h.ID("fixes"), g.Group(rows[:shown])),
		g.If(len(rows) > shown, Disclosure("quietdetails", strconv.Itoa(len(rows)-shown)+" more", h.ID("more-fixes"),
			h.Ul(h.Class("fixes"), g.Group(rows[shown:])))),
		again)
}

func fixRow(f Frame, c *forecast.Forecast, fix *forecast.Fix, style ButtonStyle) g.Node {
	var costs []string
	for k := range fix.Mitigations {
		costs = append(costs, fix.Mitigations[k].Cost)
	}
	return h.Li(fixButton(c, fix, "", f.at(address.Clock), style),
		Soft("Costs: "+strings.Join(costs, "; ")+"."),
		g.Iff(len(fix.Forecast.Blocked) > 0, func() g.Node { return Soft(fix.Forecast.Without()) }))
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
	return Folded("leave-out", labelLeaveOut, c.Wanting(), h.Ol(h.Class("steps"), h.ID("cutline"), rows),
		Soft("Must-haves are never on this list."))
}
