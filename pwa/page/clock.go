package page

import (
	"strconv"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

const minuteMS = 60_000

// localNow returns the time at the venue, in minutes since the beginning of 1970, and how far it is ahead of UTC, in
// minutes. Ahead is 0 if the zone is unknown.
func (r *request) localNow() (now, ahead int64) {
	if r.frame.Local != nil {
		offset, _ := r.frame.Local(r.Now)
		ahead = int64(offset)
	}
	return r.Now/minuteMS + ahead, ahead
}

// clocks returns the cache of forecasts: the one in [Deps], else one for this page.
func (r *request) clocks() *forecast.Cache {
	if r.Clocks == nil {
		r.Clocks = new(forecast.Cache)
	}
	return r.Clocks
}

// clock returns the forecast of a job. Spot names a what-if variant.
func (r *request) clock(j job.Job, p *plan.Plan, spot string) *forecast.Forecast {
	now, ahead := r.localNow()
	return r.clocks().Forecast(j, p, now, ahead, spot)
}

// whole reads a whole number from 0 to most of the query. It is 0 if there is none.
func (r *request) whole(name string, most int) int {
	n, err := strconv.Atoi(r.in.Get(name))
	if err != nil {
		return 0
	}
	return min(max(n, 0), most)
}

func clockPage(r *request) *Reply {
	p := r.plan()
	page := view.ClockPage{Clock: r.clock(r.job, &p, ""), Hands: r.whole("hands", 4), Sooner: r.whole("sooner", 120),
		Window: p.Window}
	if page.Hands > 0 || page.Sooner > 0 {
		tried := forecast.WhatIf(r.job, page.Hands, page.Sooner)
		page.Tried = r.clock(tried, &p, "?")
	}
	if r.frame.Owns() {
		page.Cures = page.Clock.Cures(r.job, &p)
		page.Took, page.Rows = page.Clock.Compare(&r.job, &p), p.Figures
	}
	if r.frame.Edits() && (r.in.Get("help") != "" || r.frame.Owns() && r.clocks().Later != nil && page.Clock.Wanting()) {
		now, _ := r.localNow()
		page.Help, page.Looking = r.clocks().Advice(page.Clock, r.job, &p, now)
	}
	return r.draw("Clock", page.Draw(r.frame, r.job))
}

// clockAct applies a fix or adopts measured rates.
func clockAct(r *request) *Reply {
	p := r.plan()
	c := r.clock(r.job, &p, "")
	if r.in.Get(view.FieldAct) == "rates" {
		return r.adoptRates(&p, forecast.Chosen(c.Compare(&r.job, &p), r.in.Get("id")))
	}
	fix := c.FindFix(r.job, &p, r.in.Get("id"))
	if r.in.Get(view.FieldAct) != "fix" || fix == nil {
		return r.trouble(view.LabelNotOffered, "The job has changed. This no longer helps.",
			"Look at the clock again.")
	}
	return r.save(fix.Changes(), r.at(address.Clock), "Changed: "+fix.Title()+".")
}

// planWithClock returns the job's plan and puts the latest forecast into the frame.
func (r *request) planWithClock() plan.Plan {
	p := r.plan()
	now, ahead := r.localNow()
	r.frame.Clock = r.clocks().Soon(r.job, &p, now, ahead)
	return p
}

// planBeforeClock returns the job's plan and has the first forecast prepared.
func (r *request) planBeforeClock() plan.Plan {
	p := r.plan()
	now, ahead := r.localNow()
	r.clocks().Prepare(r.job, &p, now, ahead)
	return p
}
