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

// Limits for holding helium: how much earlier each further try is, in minutes, and how many plans are simulated. From
// memory, no source.
const (
	holdStep      = 30
	mostSimulated = 2
)

// holdHelium plans the filling with helium as late as can be: from the plan's lead before the doors on, or some steps
// earlier, at most so many. The plan stays if waiting lowers the odds, keeps somebody, or ends later than both it and
// the doors, or if the odds fall below both floor and its own.
func (f *Forecast) holdHelium(p *plan.Plan, o *crew.Options, most int, floor float64) {
	fills, first := f.heliumTasks(p)
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
		if step == 0 && p.Window.Verdict == "fits" && f.searchAgain(&job, o, floor) {
			return
		}
		for _, replan := range [...]func(crew.Schedule, crew.Job) (crew.Schedule, error){crew.Hold, crew.Carry} {
			held, err := replan(f.schedule, job)
			if err != nil || simulated == mostSimulated || !f.endsNoLater(&held) {
				continue
			}
			simulated++
			if odds := o.Odds(held); f.costsNothing(&odds, floor) {
				f.job, f.schedule, f.forecast = job, held, odds
				return
			}
		}
	}
}

// heliumTasks returns the tasks that fill with helium and may wait, and when the first of them starts.
func (f *Forecast) heliumTasks(p *plan.Plan) (fills []int, first int) {
	first = faraway
	for i := range p.Cards {
		for k := range f.job.Tasks {
			if t := &f.job.Tasks[k]; t.Key == p.Cards[i].Key && t.From < f.In && fillsHelium(&p.Cards[i]) {
				fills = append(fills, k)
				first = min(first, f.schedule.Slots[k].Start)
			}
		}
	}
	return fills, first
}

// searchAgain searches a plan of the job in which tasks wait, and takes it if that costs nothing. It reports whether it
// does.
func (f *Forecast) searchAgain(job *crew.Job, o *crew.Options, floor float64) bool {
	again := crew.Options{Seed: o.Seed, Schedules: o.Schedules, Runs: o.Runs, Like: &f.schedule, Pause: o.Pause}
	held, odds, err := crew.Settle(*job, again)
	if err != nil || !f.endsNoLater(&held) || !f.costsNothing(&odds, floor) {
		return false
	}
	f.job, f.schedule, f.forecast = *job, held, odds
	return true
}

// endsNoLater reports whether a plan ends no later than this or the doors, and keeps nobody who could go.
func (f *Forecast) endsNoLater(held *crew.Schedule) bool {
	return held.Finish <= max(f.schedule.Finish, f.Doors) && len(held.StaysOn) <= len(f.schedule.StaysOn)
}

// costsNothing reports whether odds are as good as those of the plan, to within one run, and as floor; hopeless odds
// say nothing. The safe bet may move, but not past both the plan's and the doors.
func (f *Forecast) costsNothing(odds *crew.Forecast, floor float64) bool {
	run, was := 1.5/float64(max(1, odds.Runs)), &f.forecast
	worse := func(now, then float64) bool { return then >= crew.Hopeless && now < then-run }
	return !worse(odds.Musts, was.Musts) && !worse(odds.Shoulds, was.Shoulds) && !worse(odds.Done, was.Done) &&
		odds.Done >= min(floor, was.Done) && odds.Ninety <= max(was.Ninety, f.Doors)
}

// Sinks says which balloons, filled when the plan says, sink before they are not needed any more.
func (f *Forecast) Sinks() (says []string) {
	for i := range f.floats {
		span := &f.floats[i]
		t, found := f.Task(task.FamilyMake.Of(span.Piece).Key())
		if !found {
			continue
		}
		until := int(span.Until - f.Origin)
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
