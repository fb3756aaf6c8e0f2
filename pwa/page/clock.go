package page

import (
	"encoding/json"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/address"
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

// clock is the clock of a job. Spot tells apart what is tried out.
func (a *ask) clock(j job.Job, p *plan.Plan, spot string) *plan.Clock {
	now, ahead := a.localNow()
	return a.clocks().Clock(j, p, now, ahead, spot)
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
	page := view.ClockPage{Clock: a.clock(a.job, &p, ""), Hands: a.whole("hands", 4), Sooner: a.whole("sooner", 120),
		Window: p.Window}
	if page.Hands > 0 || page.Sooner > 0 {
		tried := plan.WhatIf(a.job, page.Hands, page.Sooner)
		page.Tried = a.clock(tried, &p, "?")
	}
	if a.frame.Owns() {
		page.Took = page.Clock.Took(&a.job, &p)
	}
	if a.in.Get("help") != "" && a.frame.Edits() {
		now, ahead := a.localNow()
		page.Help, page.Looking = a.clocks().Help(a.job, &p, now, ahead)
	}
	return a.draw("Clock", page.Draw(a.frame, a.job))
}

// clockAct takes a fix that was pressed, for the changes it stands for as the job is now, or rates to go by.
func clockAct(a *ask) *Reply {
	p := a.plan()
	c := a.clock(a.job, &p, "")
	if a.in.Get(view.FieldAct) == "rates" {
		changes := plan.TakeOver(&a.job, &p, c.Took(&a.job, &p))
		reply := a.wrote(changes, a.at(address.Clock), "Your own rates follow what was seen.")
		if coming := a.toComing(changes); len(coming) > 0 {
			reply.Writes = append(reply.Writes, coming...)
			reply.Flash = "Your own rates follow what was seen, and so do those of " + view.Many(
				len(coming),
				"job",
			) + " to come."
		}
		return reply
	}
	fix := c.FindFix(a.job, &p, a.in.Get("id"))
	if a.in.Get(view.FieldAct) != "fix" || fix == nil {
		return a.trouble("Not offered any more", "The job has changed since, and this would not help it now.",
			"Look at the clock again.")
	}
	reply := a.wrote(fix.Changes(), a.at(address.Clock), "Changed: "+fix.Title()+".")
	reply.Undo = &view.Deed{Act: "unfix", Text: a.fieldsOf(fix.Changes())}
	return reply
}

// fieldsOf lists what changes will set: an entity that is new, or an entity and a field, with commas between.
func (a *ask) fieldsOf(changes []job.Change) string {
	list := ""
	for _, c := range changes {
		entry := c.Entity + " " + c.Field
		if noun, known := job.FindNoun(c.Entity); known && !noun.Single && a.job.State.Registers[c.Entity] == nil &&
			noun.Name != "override" {
			entry = c.Entity
		}
		if !strings.HasSuffix(","+list, ","+entry+",") {
			list += entry + ","
		}
	}
	return list
}

// unfix takes back all that a fix changed, as far as the same person's values still stand.
func (a *ask) unfix(d deed) done {
	var back []job.Change
	for _, entry := range strings.Split(d.text, ",") {
		entity, field, old := strings.Cut(entry, " ")
		if !old {
			field = "name"
		}
		readings := a.job.State.Register(entity, field).Readings
		if len(readings) == 0 || readings[0].Author.Name != a.Visitor.Name {
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
		if a.Visitor.Role.MayField(job.Set, c.Entity, c.Field) && job.CheckChange(c) == nil {
			back = append(back, c)
		}
	}
	if back == nil {
		return done{wrong: "This was changed again since, so there is nothing to take back."}
	}
	return done{change: back[0], more: back[1:], flash: "Taken back."}
}

// clocked gives the job's plan, and puts its clock, as far as it is worked out, at the frame's hand.
func (a *ask) clocked() plan.Plan {
	p := a.plan()
	now, ahead := a.localNow()
	a.frame.Clock = a.clocks().Soon(a.job, &p, now, ahead)
	return p
}
