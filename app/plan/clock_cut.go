package plan

import "garlandry/calc/crew"

// Cut is a step down the cut line: what to leave out next, and what is then true.
type Cut struct {
	Piece    string // id; "" for a card that belongs to none
	Title    string
	Priority string
	Tasks    []string // keys of the cards that go with it
	Odds     float64
	Ninety   int
}

// cutRuns is how often a candidate is played: enough to tell which helps most.
const cutRuns = 200

// mostCuts is how many steps are told: nobody leaves out more than that on the day.
const mostCuts = 12

// Cuts says in which order to leave things out if time runs short: whole pieces, what could be there before what should,
// and of those first the one without which nine in ten runs end soonest. What must be there never goes. The plan is kept,
// only without the cards, so no step ends later than the one before.
func (c *Clock) Cuts(p *Plan) []Cut {
	if !c.Planned() {
		return nil
	}
	var cuts []Cut
	job, schedule := c.job, c.schedule
	runs := min(cutRuns, max(40, cutRuns*60/(1+len(job.Tasks)))) // a job of many cards is many candidates, too
	for len(cuts) < mostCuts {
		var best *Cut
		var kept crew.Schedule
		for _, cut := range candidates(&job, p) {
			gone := map[string]bool{}
			for _, key := range cut.Tasks {
				gone[key] = true
			}
			without, err := crew.Carry(schedule, crew.LeaveOut(func(t crew.Task) bool { return gone[t.Key] })(job))
			if err != nil {
				continue
			}
			f := crew.Odds(without, c.seed, runs)
			cut.Odds, cut.Ninety = f.Done, f.Ninety
			if best == nil || cut.Ninety < best.Ninety {
				best, kept = &cut, without
			}
		}
		if best == nil {
			return cuts
		}
		gone := map[string]bool{}
		for _, key := range best.Tasks {
			gone[key] = true
		}
		job, schedule = crew.LeaveOut(func(t crew.Task) bool { return gone[t.Key] })(job), kept
		cuts = append(cuts, *best)
	}
	return cuts
}

// candidates are the pieces, and cards of none, of the least priority that is left.
func candidates(j *crew.Job, p *Plan) []Cut {
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
			n, there := at[key]
			if !there {
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
func titleOf(p *Plan, t *crew.Task) string {
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
