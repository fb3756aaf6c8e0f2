package forecast

import (
	"slices"

	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
)

// fillsHelium reports whether a card fills with helium and has not begun.
func fillsHelium(card *task.Card) bool {
	for _, care := range card.Cautions {
		if care.Key == "helium" {
			return task.RefTo(card.Key).Family == task.FamilyMake && card.Made == 0 && !card.Done
		}
	}
	return false
}

// heliumFrom returns the earliest minute at which a card that fills with helium begins, since balloons float from then
// on; 0 for other cards, for one that has begun, and where the work on site leaves no time to wait: see holdHelium.
func (f *Forecast) heliumFrom(p *plan.Plan, card *task.Card) int {
	if fillsHelium(card) && p.Window.Verdict == "fits" {
		return max(f.In, f.Doors-int(p.HeliumLead))
	}
	return 0
}

// Limits for holding helium: how much earlier each further try is, in minutes, and how many plans are simulated. From
// memory, no source.
const (
	holdStep      = 30
	mostSimulated = 2
)

// holdHelium plans the filling with helium as late as can be: from the plan's lead before the doors on, or some steps
// earlier, at most so many. The plan stays if waiting lowers the odds, keeps somebody, or ends later than both it and
// the doors.
func (f *Forecast) holdHelium(p *plan.Plan, o *crew.Options, most int) {
	var fills []int // tasks
	first := faraway
	for i := range p.Cards {
		for k := range f.job.Tasks {
			if t := &f.job.Tasks[k]; t.Key == p.Cards[i].Key && t.From < f.In && fillsHelium(&p.Cards[i]) {
				fills = append(fills, k)
				first = min(first, f.schedule.Slots[k].Start)
			}
		}
	}
	simulated := 0
	for step := range most {
		from := f.Doors - int(p.HeliumLead) - step*holdStep
		if len(fills) == 0 || from <= max(first, f.In) || simulated == mostSimulated {
			return
		}
		job := f.job
		job.Tasks = slices.Clone(job.Tasks)
		for _, k := range fills {
			job.Tasks[k].From = from
		}
		for _, replan := range [...]func(crew.Schedule, crew.Job) (crew.Schedule, error){crew.Hold, crew.Carry} {
			held, err := replan(f.schedule, job)
			if err != nil || held.Finish > max(f.schedule.Finish, f.Doors) || simulated == mostSimulated ||
				len(held.StaysOn) > len(f.schedule.StaysOn) {
				continue
			}
			simulated++
			if odds := o.Odds(held); f.costsNothing(&odds) {
				f.job, f.schedule, f.forecast = job, held, odds
				return
			}
		}
	}
}

// costsNothing reports whether odds are as good as those of the plan, to within one run; hopeless odds say nothing. The
// safe bet may move, but not past both the plan's and the doors.
func (f *Forecast) costsNothing(odds *crew.Forecast) bool {
	run, was := 1.5/float64(max(1, odds.Runs)), &f.forecast
	worse := func(now, then float64) bool { return then >= crew.Hopeless && now < then-run }
	return !worse(odds.Musts, was.Musts) && !worse(odds.Shoulds, was.Shoulds) && !worse(odds.Done, was.Done) &&
		odds.Ninety <= max(was.Ninety, f.Doors)
}

// Sinks says which balloons, filled when the plan says, sink before they are not needed any more.
func (f *Forecast) Sinks() (says []string) {
	for i := range f.floats {
		span := &f.floats[i]
		t, found := f.Task(task.FamilyMake.Of(span.Piece).Key())
		if !found {
			continue
		}
		until := int(span.Until.Unix()/60 - f.Origin)
		if sink := t.Start + 60*span.Hours; sink < until {
			gel := ""
			if span.Gel {
				gel = " with drying gel"
			}
			says = append(says, span.Name+": filled at "+f.clock(t.Start)+" they float until "+f.clock(sink)+gel+
				"; needed until "+f.clock(until)+". Fill them later if you can, or take larger ones.")
		}
	}
	return says
}
