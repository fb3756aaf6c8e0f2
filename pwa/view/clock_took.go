package view

import (
	"fmt"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/forecast"
	"garlandry/app/plan/figures"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// tookList compares how long each kind of work took with the table, and asks whether to plan with it. Times that are
// far from the table have a question of their own.
func tookList(f Frame, list []forecast.Comparison, rows []figures.Figure) g.Node {
	offers := 0
	items := make(g.Group, len(list))
	for i := range list {
		t := &list[i]
		var rates []forecast.NewRate
		if !t.Used {
			rates = t.Rates(rows)
		}
		if len(rates) > 0 && !t.Beyond {
			offers++
		}
		items[i] = tookItem(f, t, rates)
	}
	return Panel("How long it took", "", h.Ul(h.Class("fixes"), h.ID("took"), items),
		g.Iff(offers > 1, func() g.Node {
			return ActForm("rates", f.at(address.Clock), "rates", "all", "", g.Text("Use all of these"))
		}),
		Soft("From your ticks and counts, and from minutes typed on cards. What you use is saved under My numbers, "+
			"here and in later jobs."))
}

// tookItem draws one comparison with the rates that it would change.
func tookItem(f Frame, t *forecast.Comparison, rates []forecast.NewRate) g.Node {
	who := "beginners"
	if t.Practised {
		who = "practised"
	}
	instead := fmt.Sprintf("%s: %s instead of %s", who, minutes(t.Actual), minutes(t.Planned))
	return h.Li(h.P(h.B(g.Text(t.Label)), g.Text(" "), Small(instead)),
		g.If(len(rates) > 0, h.Ul(h.Class("soft"), g.Map(rates, func(r forecast.NewRate) g.Node {
			return h.Li(g.Text(rateLabel(r.Figure) + ": " + rateWords(r.Figure.Value, r.Figure) + " → " +
				rateWords(r.After, r.Figure)))
		}))),
		g.Iff(len(rates) > 0, func() g.Node {
			question, yes := tookQuestion(t, rates)
			return g.Group{h.P(g.Text(question)),
				ActForm(domID("rates", t.Key()), f.at(address.Clock), "rates", t.Key(), "", g.Text(yes))}
		}),
		g.Iff(t.Used, func() g.Node {
			return g.Group{Soft("Your rates follow it."),
				Act(f, Action{Act: "unrate", Entity: "override/" + t.Key(), Text: t.Key()}, Quiet, Icon("undo"),
					g.Text(labelUndo))}
		}))
}

// tookQuestion asks whether to plan with what was measured, and labels the answer.
func tookQuestion(t *forecast.Comparison, rates []forecast.NewRate) (question, yes string) {
	if !t.Beyond {
		return "Plan with these from now on?", "Use these"
	}
	share, says, of := "a third", "the table says ", ""
	if t.Actual > t.Planned {
		share = "three times"
	}
	if rates[0].Figure.Overridden {
		says, of = "your numbers say ", " of the table’s"
		if share == "three times" {
			of = " the table’s"
		}
	}
	return minutes(t.Actual) + " where " + says + minutes(t.Planned) + ": use " + share + of + "?", "Use " + share
}

// rateLabel is a figure's label without the skill, which stands above.
func rateLabel(f *figures.Figure) string {
	label := strings.TrimSuffix(f.Label, ", "+string(figures.Beginner))
	label = strings.TrimSuffix(label, ", "+string(figures.Practised))
	if f.Unit == "%" {
		label = "Spread"
	}
	return label
}

// rateWords writes a rate with its unit: "0.75 min".
func rateWords(value float64, f *figures.Figure) string {
	unit := " min"
	if f.Unit == "%" {
		unit = " %"
	}
	return measure.FormatNumber(value, 2) + unit
}
