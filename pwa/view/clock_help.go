package view

import (
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/plan"
)

// helpParts draws what would help and what to leave out first, or the way to ask for it: it takes a while to work out.
// What would help has prices, so that only the owner sees it.
func (p *ClockPage) helpParts(f Frame) g.Node {
	switch {
	case p.Help == nil && p.Looking:
		if !f.Owns() {
			return Panel("If time runs short, leave out", "", looking("Looking for what to leave out first…"),
				txt(`p class="soft"`, "Go on meanwhile: the answer comes in here."))
		}
		return Panel(
			"What would help",
			"",
			looking("Looking for what would help…"),
			txt(
				`p class="soft"`,
				"It tries more hands, work at home, an earlier start and a plainer look, and what to leave out first. Go on meanwhile: the answer comes in here.",
			),
		)
	case p.Help == nil && !f.Owns():
		return html(`<section class="panel noprint"><p>{}</p></section>`, nil,
			ButtonLink(f.at("clock")+"?help=1", "", fixed("{care}What to leave out first")))
	case p.Help == nil:
		return html(
			`<section class="panel noprint"><div class="panelhead"><h2 id="help">$</h2></div><p>Tries more hands, work at home, an earlier start and a plainer look, and what to leave out first. It takes a moment.</p><p>{}</p></section>`,
			texts{pick(p.Clock.Odds >= plan.Target, "What could still help", "What would help")},
			ButtonLink(f.at("clock")+"?help=1", "go", fixed("{care}Look for help")),
		)
	}
	return these(g.Iff(f.Owns(), func() g.Node { return fixList(f, p) }), leaveOut(p.Clock, p.Help.Cuts))
}

// looking says that something is being worked out beside.
func looking(what string) g.Node {
	return html(`<p class="looking" role="status">{wait}<b>$</b></p>`, texts{what})
}

// fixList draws the fixes, each with the odds after it and what it costs; a press changes the job.
func fixList(f Frame, p *ClockPage) g.Node {
	again := g.Iff(p.Looking, func() g.Node { return looking("Looking again, since the job has changed…") })
	if len(p.Help.Fixes) == 0 {
		return Panel(
			"What would help",
			"",
			again,
			txt(
				"p",
				pick(p.Clock.Odds >= 0.95, "No change is needed, and none would help much.",
					"No single change helps much. Talk to the client about what may be left out."),
			),
		)
	}
	return html(
		`<section class="panel"><div class="panelhead"><h2 id="help">What would help</h2></div>{}{}{}</section>`,
		nil,
		el(`ul class="fixes" id="fixes"`, each(len(p.Help.Fixes), func(i int) g.Node {
			fix := &p.Help.Fixes[i]
			var costs []string
			for k := range fix.Levers {
				costs = append(costs, fix.Levers[k].Cost)
			}
			return html(
				`<li><p><b>$</b></p><p class="soft">$: done by $ with 9 in 10 odds. It costs: $.</p>{}</li>`,
				texts{fix.Title(), capital(plan.Tenths(fix.Clock.Odds)), clockTime(fix.Clock, fix.Clock.Ninety),
					strings.Join(costs, "; ")},
				ActForm(domID("fix", fix.Key), f.at("clock"), "fix", fix.Key, pick(fix.Reaches, Primary, Plain), g.Text("Do this")),
			)
		})),
		again,
		txt(`p class="soft"`, "A press changes the job. It can be taken back at once, and later in the history."),
	)
}

// leaveOut draws in which order to leave things out.
func leaveOut(c *plan.Clock, cuts []plan.Cut) g.Node {
	if len(cuts) == 0 {
		return nothing
	}
	return Panel(
		"If time runs short, leave out",
		"",
		el(`ol class="steps" id="cutline"`, each(len(cuts), func(i int) g.Node {
			cut := &cuts[i]
			return html(
				`<li><b>$</b> <span class="soft">$$: $ to be done by the doors, 9 in 10 by $</span></li>`,
				texts{cut.Title, pick(cut.Priority == "could", "could be there", "should be there"),
					pick(i == 0, "", ", with all above"), plan.Tenths(cut.Odds), clockTime(c, cut.Ninety)},
			)
		})),
		txt(`p class="soft"`, "What must be there is never on this list."),
	)
}

// tookList draws how long things took against the table, with a press to make one's own rates of it.
func tookList(f Frame, list []plan.Took) g.Node {
	fresh := false
	return Panel("How long it took", "", el(`ul class="steps" id="took"`, each(len(list), func(i int) g.Node {
		t := &list[i]
		fresh = fresh || !t.Used
		return html(
			`<li><b>$</b> <span class="soft">$: $ instead of $$</span></li>`,
			texts{t.Label, pick(t.Practised, "practised", "beginners"), minutes(t.Actual), minutes(t.Planned),
				pick(t.Used, ", and your rates follow it", "")},
		)
	})), g.Iff(fresh, func() g.Node {
		return these(
			ActForm("rates", f.at("clock"), "rates", "all", "", g.Text("Use these as my rates")),
			txt(
				`p class="soft"`,
				"Read from ticks and counts. The table gives way the more of a kind was seen; your own figures then stand under Figures, here and in the jobs to come.",
			),
		)
	}))
}
