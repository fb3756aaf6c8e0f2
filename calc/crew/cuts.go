package crew

// Cut is a step down the cut line: what to leave out next, and what is then true.
type Cut struct {
	Piece    string
	Priority Priority // Should or Could
	Tasks    []string // all tasks of the piece that have this priority and are left
	Finish   int
	Forecast Forecast
}

// cutRuns is how often each candidate is played: enough to tell which helps most.
const cutRuns = 400

// Cuts says in which order to leave things out if time runs short. Everything a
// piece could do without goes before anything that should be there, and musts are
// never left out, nor what they wait for; among equals that goes first without
// which nine in ten runs end soonest. The plan that is given is kept, only without
// the tasks; so no step ends later than the one before. The error is ErrChanged if
// the plan is not one of a job.
func Cuts(s Schedule, seed uint64) ([]Cut, error) {
	if s.planned == nil {
		return nil, ErrChanged
	}
	var cuts []Cut
	for {
		best := Cut{}
		var kept Schedule
		for _, c := range candidates(s.planned.job.Tasks) {
			gone := map[string]bool{}
			for _, key := range c.Tasks {
				gone[key] = true
			}
			without, err := Carry(s, LeaveOut(func(t Task) bool { return gone[t.Key] })(*s.planned.job))
			if err != nil {
				return nil, err
			}
			c.Finish, c.Forecast = without.Finish, Odds(without, seed, cutRuns)
			if best.Tasks == nil || c.Forecast.better(best.Forecast) {
				best, kept = c, without
			}
		}
		if best.Tasks == nil {
			return cuts, nil
		}
		cuts, s = append(cuts, best), kept
	}
}

// candidates are the cuts of the least needed priority there is: for each piece its
// tasks of it, but not those that a task which stays waits for.
func candidates(tasks []Task) []Cut {
	for priority := Could; priority >= Should; priority-- {
		var cuts []Cut
		for _, task := range tasks {
			if task.Priority == priority && !listed(cuts, task.Piece) {
				if keys := removable(tasks, task.Piece, priority); len(keys) > 0 {
					cuts = append(cuts, Cut{Piece: task.Piece, Priority: priority, Tasks: keys})
				}
			}
		}
		if len(cuts) > 0 {
			return cuts
		}
	}
	return nil
}

func listed(cuts []Cut, piece string) bool {
	for _, c := range cuts {
		if c.Piece == piece {
			return true
		}
	}
	return false
}

// removable are the tasks of a piece and priority that nothing which stays waits for.
func removable(tasks []Task, piece string, priority Priority) []string {
	out := map[string]bool{}
	for _, task := range tasks {
		if task.Piece == piece && task.Priority == priority {
			out[task.Key] = true
		}
	}
	for changed := true; changed; {
		changed = false
		for _, task := range tasks {
			if out[task.Key] {
				continue
			}
			for _, before := range task.Before {
				if out[before] {
					delete(out, before)
					changed = true
				}
			}
		}
	}
	var keys []string
	for _, task := range tasks {
		if out[task.Key] {
			keys = append(keys, task.Key)
		}
	}
	return keys
}
