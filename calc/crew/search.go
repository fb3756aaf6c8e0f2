package crew

import "garlandry/calc/crew/evolve"

// Search looks for better schedules of one job.
type Search struct {
	_       [0]func() // never compared, so the core needs no code to
	decoder *decoder
	evolve  *evolve.Search
	proven  bool
}

// NewSearch checks a job and prepares a search, of which so many schedules are
// expected in all (it may be asked for more). The same seed, budget and steps give
// the same schedules everywhere.
func NewSearch(job Job, seed uint64, budget int) (*Search, error) {
	return newSearch(&job, seed, budget)
}

func newSearch(job *Job, seed uint64, budget int) (*Search, error) {
	m, err := newModel(job)
	if err != nil {
		return nil, err
	}
	s := &Search{decoder: newDecoder(m)}
	if len(m.tasks) > 0 {
		s.evolve = evolve.New(s.decoder, seed, budget, s.decoder.openings())
	}
	return s, nil
}

// Improve generates at most so many more schedules and gives back the best so far;
// the first one already is a whole plan.
func (s *Search) Improve(schedules int) Schedule { return *s.improve(schedules) }

func (s *Search) improve(schedules int) *Schedule {
	if s.evolve == nil {
		return &Schedule{Finish: s.decoder.job.Now, Proven: true, network: &network{planned: &s.decoder.model}, planned: &s.decoder.model}
	}
	if !s.proven {
		s.evolve.Improve(schedules)
	}
	if !s.decoder.found {
		s.evolve.Improve(1)
	}
	return s.decoder.schedule(s.proven || s.evolve.Proven(), s.evolve.Used())
}

// openings are orders to begin with: by latest start, in teams that end each task
// soonest, so again but musts before shoulds before coulds, then in the smallest and the
// largest teams.
func (d *decoder) openings() []evolve.Plan {
	tails := ints(len(d.tasks))
	for at := len(d.order) - 1; at >= 0; at-- {
		task := d.order[at]
		for _, next := range d.before[1][task] {
			tails[task] = max(tails[task], tails[next]+d.lag(task, next))
		}
		t := &d.tasks[task]
		tails[task] += minutesFor(d.work[task], d.speed[task].team((t.Least+t.Most+1)/2, 0))
	}
	plans := make([]evolve.Plan, 4)
	for i := range plans {
		plans[i] = evolve.NewPlan(len(d.tasks), true)
		for task := range d.tasks {
			plans[i].Start[task] = -tails[task]
			if i == 1 {
				plans[i].Start[task] += int(d.level[task]) * maxMinutes
			}
			plans[i].Genes[task] = [4]uint8{greedy, greedy, 0, uint8(d.Genes(task) - 1)}[i]
		}
	}
	return plans
}
