package crew

import (
	"encoding/binary"
	"math"
	"slices"
)

// steps plans a job after the jobs with less: one person, pump, ladder or car fewer at each step. The plan of each job
// is that of its own search, or that of a smaller job if that loses less, see choose.
type steps struct {
	own   Options // of each search
	last  *Options
	known map[string]bool      // the jobs to plan, see keyOf
	plans map[string]*Schedule // of these
	drawn [2]*draws            // for the searches, and to compare their plans
	tried int                  // schedules generated
}

// stepShare divides the search of a job that has a smaller one. It tries the order and the teams of the smaller one's
// plan, which makes up for it.
const stepShare = 2

// stepRuns is how many runs decide whether a plan replaces that of a smaller job. All jobs use the same runs.
const stepRuns = 200

func newSteps(o *Options) *steps {
	own := Options{Seed: o.Seed, Schedules: o.Schedules, Runs: o.Runs, Like: o.Like, Pause: o.Pause}
	if own.Schedules <= 0 {
		own.Schedules = usualSchedules
	}
	return &steps{own: own, last: o, plans: map[string]*Schedule{},
		drawn: [2]*draws{newDraws(o.Seed + 1), newDraws(o.Seed)}}
}

func (s *steps) settle(job *Job) (*Schedule, *Forecast, error) {
	job = job.useful()
	s.list(job)
	best, err := s.plan(job)
	if err != nil {
		return nil, nil, err
	}
	best.Tried = s.tried
	best, forecast := s.last.keep(job, best)
	return best, forecast, nil
}

// list finds the jobs to plan: the nearest ones, breadth first.
func (s *steps) list(job *Job) {
	s.known = map[string]bool{keyOf(job): true}
	for next := []*Job{job}; len(next) > 0; next = next[1:] {
		for _, less := range next[0].smaller() {
			if key := keyOf(less); !s.known[key] && len(s.known) <= s.last.Smaller {
				s.known[key] = true
				next = append(next, less)
			}
		}
	}
}

// plan returns the plan of a job after those of the listed jobs with less.
func (s *steps) plan(job *Job) (*Schedule, error) {
	key := keyOf(job)
	if done := s.plans[key]; done != nil {
		return done, nil
	}
	smaller := job.smaller()
	o := s.own
	var kept []*Schedule
	for _, less := range smaller {
		if !s.known[keyOf(less)] {
			continue
		}
		plan, err := s.plan(less)
		if err != nil {
			continue
		}
		if carried, err := plan.carry(job); err == nil {
			kept = append(kept, carried)
			o.also = plan
		}
	}
	if len(smaller) > 0 {
		o.Schedules, o.elite = o.Schedules/stepShare, elite/stepShare
	}
	best, err := findPlan(job, &o, s.drawn[0])
	if err != nil {
		return nil, err
	}
	s.tried += best.Tried
	s.plans[key] = s.choose(best, kept)
	return s.plans[key], nil
}

// choose returns the plan if it loses nothing that matters against those of smaller jobs, else the one among them all
// that loses the least against any other: what one plan gains for the musts may cost the others more.
func (s *steps) choose(best *Schedule, kept []*Schedule) *Schedule {
	all := append([]*Schedule{best}, kept...)
	if len(all) == 1 {
		return best
	}
	odds := make([]*Forecast, len(all))
	for i, plan := range all {
		odds[i] = plan.oddsWith(s.drawn[1], stepRuns, s.own.Pause)
	}
	least := loss{math.Inf(1), math.Inf(1)}
	for i, plan := range all {
		var most loss
		for _, than := range odds {
			most = most.or(odds[i].loss(than))
		}
		if most.below(least) {
			best, least = plan, most
		}
	}
	return best
}

// loss is how much worse a plan is than another: in the odds of all or of the musts, where hopeless ones are equal, and
// in minutes of the time of nine in ten.
type loss struct{ odds, minutes float64 }

func (f *Forecast) loss(than *Forecast) loss {
	return loss{max(0, hopeful(than.Done)-hopeful(f.Done), hopeful(than.Musts)-hopeful(f.Musts)),
		float64(max(0, f.Ninety-than.Ninety))}
}

// or returns the greater of each.
func (l loss) or(other loss) loss {
	return loss{max(l.odds, other.odds), max(l.minutes, other.minutes)}
}

// below reports whether a loss is less than another, first in the odds, then in minutes. Less than leastGain or
// leastLater is none.
func (l loss) below(other loss) bool {
	if l.odds >= leastGain || other.odds >= leastGain {
		return l.odds < other.odds
	}
	return l.minutes < other.minutes && other.minutes >= leastLater
}

// leastLater is a difference in minutes that nobody minds. From memory, no source.
const leastLater = 3

// useful returns the job without things that nobody can use: of each at most as many as all people together can occupy.
func (j *Job) useful() *Job {
	used := *j
	used.Things = slices.Clone(j.Things)
	for i := range used.Things {
		thing, units := &used.Things[i], 1
		for k := range j.Tasks {
			for _, need := range j.Tasks[k].Needs {
				if need.Thing == thing.Key {
					units = max(units, need.Units)
				}
			}
		}
		thing.Count = min(thing.Count, units*max(1, len(j.People)))
	}
	return &used
}

// smaller returns the jobs with one thing fewer, for each kind of thing of which there are several, and with one person
// fewer: the last one in the list without whom the job can still be done, and who took none of its tasks.
func (j *Job) smaller() (list []*Job) {
	for i := range j.Things {
		if j.Things[i].Count > 1 {
			less := *j
			less.Things = slices.Clone(j.Things)
			less.Things[i].Count--
			list = append(list, &less)
		}
	}
	for i := len(j.People) - 1; i >= 0; i-- {
		less := *j
		less.People = slices.Delete(slices.Clone(j.People), i, i+1)
		if !j.took(i) && j.People[i].works(j) && less.hasHands() {
			return append(list, less.useful())
		}
	}
	return list
}

// took reports whether a person took a task.
func (j *Job) took(person int) bool {
	for i := range j.Tasks {
		if slices.Contains(j.Tasks[i].Taken, j.People[person].Key) {
			return true
		}
	}
	return false
}

// works reports whether a person goes to the place of any task.
func (p *Person) works(j *Job) bool {
	for i := range j.Tasks {
		if p.goes(j.Tasks[i].Place) {
			return true
		}
	}
	return false
}

// hasHands reports whether every task has enough people who go to its place and may do it.
func (j *Job) hasHands() bool {
	for i := range j.Tasks {
		t, hands := &j.Tasks[i], 0
		for k := range j.People {
			if p := &j.People[k]; p.goes(t.Place) && (len(t.By) == 0 || slices.Contains(t.By, p.Key)) {
				hands++
			}
		}
		if hands < max(1, t.Least) {
			return false
		}
	}
	return true
}

// keyOf names a job by its people and the number of each thing.
func keyOf(j *Job) string {
	var key []byte
	for i := range j.Things {
		key = binary.AppendUvarint(key, uint64(j.Things[i].Count))
	}
	for i := range j.People {
		key = append(append(key, j.People[i].Key...), 0)
	}
	return string(key)
}
