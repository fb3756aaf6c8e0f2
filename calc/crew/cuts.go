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
	kept := &s
	for {
		cut, next, err := kept.nextCut(seed)
		if err != nil || cut == nil {
			return cuts, err
		}
		cuts, kept = append(cuts, *cut), next
	}
}

// nextCut is what to leave out first, nil if there is nothing, and the plan without it.
func (s *Schedule) nextCut(seed uint64) (best *Cut, kept *Schedule, err error) {
	tasks := s.planned.job.Tasks
	out := make([]bool, len(tasks))
	for priority := Could; priority >= Should && best == nil; priority-- {
		for i := range tasks {
			if !removable(tasks, i, priority, out) {
				continue
			}
			c := &Cut{Piece: tasks[i].Piece, Priority: priority}
			job := new(Job)
			*job = *s.planned.job
			job.Tasks = nil
			for k := range tasks {
				if out[k] {
					c.Tasks = append(c.Tasks, tasks[k].Key)
				} else {
					job.Tasks = append(job.Tasks, tasks[k])
				}
			}
			without, err := s.carry(job)
			if err != nil {
				return nil, nil, err
			}
			c.Finish, c.Forecast = without.Finish, *without.odds(seed, cutRuns)
			if best == nil || c.Forecast.better(&best.Forecast) {
				best, kept = c, without
			}
		}
	}
	return best, kept, nil
}

// removable marks the tasks of a priority and of the piece that task i is of, but not
// those that a task which stays waits for. It is false if there are none, or if i is
// not the first task of that piece and priority.
func removable(tasks []Task, i int, priority Priority, out []bool) bool {
	count := 0
	for k := range tasks {
		out[k] = tasks[k].Priority == priority && tasks[k].Piece == tasks[i].Piece
		if out[k] {
			if k < i {
				return false
			}
			count++
		}
	}
	if !out[i] {
		return false
	}
	for changed := true; changed; {
		changed = false
		for k := range tasks {
			if out[k] && neededByRest(tasks, tasks[k].Key, out) {
				out[k], changed = false, true
				count--
			}
		}
	}
	return count > 0
}

// neededByRest tells whether a task that stays waits for the one with a key.
func neededByRest(tasks []Task, key string, out []bool) bool {
	for k := range tasks {
		if !out[k] && listed(tasks[k].Before, key) {
			return true
		}
	}
	return false
}
