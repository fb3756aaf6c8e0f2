package page

import (
	"encoding/json"
	"strconv"
	"strings"

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
	reply := r.save(fix.Changes(), r.at(address.Clock), "Changed: "+fix.Title()+".")
	reply.Undo = &view.Action{Act: "unfix", Text: r.fieldsOf(fix.Changes())}
	return reply
}

// fieldsOf lists what changes set, each followed by a comma: "entity" for a new entity, else "entity field".
func (r *request) fieldsOf(changes []job.Change) string {
	list := ""
	for _, c := range changes {
		entry := c.Entity + " " + c.Field
		if noun, known := job.FindNoun(c.Entity); known && !noun.Single && r.job.State.Registers[c.Entity] == nil &&
			noun.Name != "override" && noun.Name != "choice" {
			entry = c.Entity
		}
		if !strings.HasSuffix(","+list, ","+entry+",") {
			list += entry + ","
		}
	}
	return list
}

// unfix takes back the changes of a fix that nobody else has changed since.
func (r *request) unfix(d action) result {
	var back []job.Change
	for _, entry := range strings.Split(d.text, ",") {
		entity, field, old := strings.Cut(entry, " ")
		if !old {
			field = "name"
		}
		readings := r.job.State.Register(entity, field).Readings
		if len(readings) == 0 || readings[0].Author.Name != r.Visitor.Name {
			continue
		}
		c := job.Put(entity, "removed", true)
		if old {
			var before json.RawMessage
			if len(readings) > 1 {
				before = readings[1].Value
			}
			c = job.Put(entity, field, before)
		}
		if r.Visitor.Role.MayField(job.Set, c.Entity, c.Field) && job.CheckChange(c) == nil {
			back = append(back, c)
		}
	}
	if back == nil {
		return result{wrong: view.LabelChangedSince}
	}
	return result{change: back[0], more: back[1:], flash: "Undone."}
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
