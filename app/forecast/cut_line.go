package forecast

import (
	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"garlandry/calc/crew"
)

// Cut is a step down the cut line: what to leave out next, and what is then true.
type Cut struct {
	Piece    string // id; "" for a card that belongs to none
	Title    string
	Priority string
	Tasks    []string // keys of the cards that go with it
	Odds     float64
	Ninety   int
}

// cutRuns is how often a candidate is played: enough to tell which helps most. The step that is taken is then planned
// anew.
const cutRuns = 200

// leastCuts is how many are told in any case, as far as there are any: it may go worse than anybody thought.
const leastCuts = 3

// mostCuts is how many steps are told: nobody leaves out more than that on the day.
const mostCuts = 12

var cutBudget = Budget{Schedules: 24, Runs: 500}

// certain is from when no more need be left out.
const certain = 0.995

// Cuts says in which order to leave things out if time runs short, three steps at least, then until it is as good as
// certain: whole pieces, what could be there before what should, and of those first the one without which nine in ten
// runs end soonest. What must be there never goes, nor what it needs. Each step is planned anew, and never ends later
// than the one before.
func (f *Forecast) Cuts(p *plan.Plan) []Cut { return f.cuts(p, nil) }

func (f *Forecast) cuts(p *plan.Plan, pause func()) []Cut {
	if !f.Planned() {
		return nil
	}
	var cuts []Cut
	job, schedule, odds := f.job, f.schedule, f.Odds
	settle := cutBudget.fit(len(job.Tasks), len(job.People)).with(pause).options(f.seed)
	play := settle
	play.Runs = min(cutRuns, max(40, cutRuns*60/(1+len(job.Tasks)))) // a job of many cards is many candidates, too
	for (odds < certain || len(cuts) < leastCuts) && len(cuts) < mostCuts {
		var best *Cut
		var left crew.Job
		for _, cut := range candidates(&job, p) {
			rest := crew.LeaveOut(func(t crew.Task) bool { return cut.goes(t.Key) })(job)
			if cut.needed(&rest) {
				continue
			}
			without, err := crew.Carry(schedule, rest)
			if err != nil {
				continue
			}
			if cut.Ninety = play.Odds(without).Ninety; best == nil || cut.Ninety < best.Ninety {
				best, left = &cut, rest
			}
		}
		if best == nil {
			break
		}
		settle.Keep, settle.Like = []crew.Schedule{schedule}, &schedule
		kept, then, err := crew.Settle(left, settle)
		if err != nil {
			break
		}
		best.Odds, best.Ninety = then.Done, then.Ninety
		job, schedule, odds = left, kept, then.Done
		cuts = append(cuts, *best)
	}
	return cuts
}

func (cut *Cut) goes(key string) bool {
	for i := range cut.Tasks {
		if cut.Tasks[i] == key {
			return true
		}
	}
	return false
}

// needed reports whether something of the rest cannot do without what is left out: a card of another piece that waits
// for it, or signs and cloths that would have no frame to hang on.
func (cut *Cut) needed(rest *crew.Job) bool {
	hangs, stands := false, true
	for _, key := range cut.Tasks {
		stands = stands && task.RefTo(key).Family != task.FamilyFrame
	}
	for i := range rest.Tasks {
		t := &rest.Tasks[i]
		stands = stands || task.RefTo(t.Key).Family == task.FamilyFrame
		family := task.RefTo(t.Key).Family
		hangs = hangs || family == task.FamilySign || family == task.FamilyCover
		for _, key := range t.Before {
			if t.Piece != "" && t.Place != crew.TakeDown && cut.goes(key) {
				return true
			}
		}
	}
	return hangs && !stands
}

// candidates are the pieces, and cards of none, of the least priority that is left.
func candidates(j *crew.Job, p *plan.Plan) []Cut {
	for priority, word := crew.Could, "could"; priority >= crew.Should; priority, word = priority-1, "should" {
		var list []Cut
		at := map[string]int{}
		for i := range j.Tasks {
			t := &j.Tasks[i]
			if t.Priority != priority {
				continue
			}
			key := t.Piece
			if key == "" {
				key = t.Key
			}
			n, found := at[key]
			if !found {
				n = len(list)
				at[key] = n
				list = append(list, Cut{Piece: t.Piece, Title: titleOf(p, t), Priority: word})
			}
			list[n].Tasks = append(list[n].Tasks, t.Key)
		}
		if len(list) > 0 {
			return list
		}
	}
	return nil
}

// titleOf names the piece of a task, or its card.
func titleOf(p *plan.Plan, t *crew.Task) string {
	for i := range p.Pieces {
		if t.Piece != "" && p.Pieces[i].Piece.ID == t.Piece {
			return p.Pieces[i].Piece.Name
		}
	}
	for i := range p.Cards {
		if p.Cards[i].Key == t.Key {
			return p.Cards[i].Title
		}
	}
	return t.Key
}
