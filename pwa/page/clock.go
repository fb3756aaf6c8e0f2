package page

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"
)

const minuteMS = 60_000

// localNow is the time at the venue, in minutes since the beginning of 1970, and how far that is ahead of UTC: nothing
// where its zone is not known.
func (a *ask) localNow() (now, ahead int64) {
	if a.frame.Local != nil {
		offset, _ := a.frame.Local(a.Now)
		ahead = int64(offset)
	}
	return a.Now/minuteMS + ahead, ahead
}

// clocks keeps the clocks of the world; where it has none, for this page alone.
func (a *ask) clocks() *plan.Clocks {
	if a.Clocks == nil {
		a.Clocks = new(plan.Clocks)
	}
	return a.Clocks
}

// clock is the clock of a job, by the budget of that number. Spot tells apart what is tried out.
func (a *ask) clock(j job.Job, p *plan.Plan, budget int, spot string) *plan.Clock {
	now, ahead := a.localNow()
	return a.clocks().Clock(j, p, now, ahead, budget, spot)
}

// whole reads a whole number of a query, 0 if there is none, at most so many.
func (a *ask) whole(name string, most int) int {
	n, err := strconv.Atoi(a.in.Get(name))
	if err != nil {
		return 0
	}
	return min(max(n, 0), most)
}

func clockPage(a *ask) *Reply {
	p := a.plan()
	page := view.ClockPage{Clock: a.clock(a.job, &p, plan.MostBudget, ""), Hands: a.whole("hands", 4), Sooner: a.whole("sooner", 120), Window: p.Window}
	if page.Hands > 0 || page.Sooner > 0 {
		tried := plan.WhatIf(a.job, page.Hands, page.Sooner)
		page.Tried = a.clock(tried, &p, 0, "?"+strconv.Itoa(page.Hands)+","+strconv.Itoa(page.Sooner))
	}
	if a.frame.Owns() {
		page.Took = page.Clock.Took(&a.job, &p)
	}
	if a.in.Get("help") != "" {
		now, _ := a.localNow()
		page.Help = a.clocks().Help(page.Clock, a.job, &p, now)
	}
	return a.draw("Clock", page.Draw(a.frame, a.job))
}

// clockAct takes a fix that was pressed, for the changes it stands for as the job is now, or rates to go by.
func clockAct(a *ask) *Reply {
	p := a.plan()
	c := a.clock(a.job, &p, 0, "")
	if a.in.Get(view.FieldAct) == "rates" {
		return a.wrote(plan.TakeOver(&a.job, &p, c.Took(&a.job, &p)), a.at("clock"), "Your own rates follow what was seen.")
	}
	fix := c.FindFix(a.job, &p, a.in.Get("id"))
	if a.in.Get(view.FieldAct) != "fix" || fix == nil {
		return a.trouble("Not offered any more", "The job has changed since, and this would not help it now.", "Look at the clock again.")
	}
	titles := ""
	for i := range fix.Levers {
		if i > 0 {
			titles += ", and "
		}
		titles += fix.Levers[i].Title
	}
	return a.wrote(fix.Changes(), a.at("clock"), "Changed: "+titles+".")
}

// clocked gives the job's plan, and puts its clock, as far as it is worked out, at the frame's hand.
func (a *ask) clocked() plan.Plan {
	p := a.plan()
	now, ahead := a.localNow()
	a.frame.Clock = a.clocks().Soon(a.job, &p, now, ahead)
	return p
}
