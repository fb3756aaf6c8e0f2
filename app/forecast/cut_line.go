package forecast

import (
	"garlandry/app/plan"
	"garlandry/app/plan/task"

	"garlandry/calc/crew"
)

// Cut is a step of the cut line: what to leave out next, and the odds after it.
type Cut struct {
	Piece    string // id; "" for a card that belongs to none
	Title    string
	Priority string
	Tasks    []string // keys of the cards that go with it
	Odds     float64
	Ninety   int
}

// cutRuns is the number of simulations of a candidate: enough to see which helps most. The chosen one is planned anew.
const cutRuns = 200

// leastCuts is how many cuts are listed in any case: the day may go worse than expected.
const leastCuts = 3

// mostCuts is the most cuts listed: nobody leaves out more on the day.
const mostCuts = 12

var cutBudget = Budget{Schedules: 24, Runs: 500}

// certain is the odds from which nothing more has to go.
const certain = 0.995

// Cuts returns the order in which to leave things out if time runs short: at least three steps, then until the odds are
// certain. Whole pieces go, coulds before shoulds, and first the one without which nine in ten runs end earliest.
// Must-haves and what they need never go. Each step is planned anew and never ends later than the one before.
func (f *Forecast) Cuts(p *plan.Plan) []Cut { return f.cuts(p, nil) }

func (f *Forecast) cuts(p *plan.Plan, pause func()) []Cut {
	if !f.Planned() {
		return nil
	}
	var cuts []Cut
	job, schedule, odds := f.job, f.schedule, f.Odds
	settle := cutBudget.fit(len(job.Tasks), len(job.People)).with(pause).options(f.seed)
	trial := settle
	trial.Runs = min(cutRuns, max(40, cutRuns*60/(1+len(job.Tasks)))) // many cards are many candidates
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
			if cut.Ninety = trial.Odds(without).Ninety; best == nil || cut.Ninety < best.Ninety {
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

// needed reports whether the rest needs what is left out: a card of another piece waits for it, or signs and cloths
// would have no frame.
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

// candidates returns the pieces, and cards without a piece, of the least priority that is left.
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

// titleOf returns the name of the piece of a task, or the title of its card.
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
