package crew

import "garlandry/calc/crew/genetic"

// search searches for better schedules of one job.
type search struct {
	decoder *decoder
	genetic *genetic.Search // nil for a job without tasks
}

// newSearch checks a job and prepares a search that is expected to generate budget schedules; more are possible. The
// same job, seed, budget and steps give the same schedules on every machine. The search begins with the plan like,
// unless it is nil.
func newSearch(job *Job, seed uint64, budget int, like *Schedule) (*search, error) {
	m, err := newModel(job)
	if err != nil {
		return nil, err
	}
	s := &search{decoder: newDecoder(m)}
	if len(m.tasks) > 0 {
		s.genetic = genetic.New(s.decoder, seed, budget, s.decoder.openings(like))
	}
	return s, nil
}

// improve generates at most the given number of further schedules and returns the best one so far. The first schedule
// is already a complete plan.
func (s *search) improve(schedules int) *Schedule {
	if s.genetic == nil {
		return &Schedule{Finish: s.decoder.job.Now, Proven: true, network: &network{planned: &s.decoder.model},
			planned: &s.decoder.model}
	}
	s.genetic.Improve(schedules)
	if !s.decoder.found {
		s.genetic.Improve(1)
	}
	best := s.decoder.schedule(s.genetic.Proven(), s.genetic.Used())
	best.network.genes = s.decoder.steps[len(s.decoder.steps)-1].Genes
	return best
}

// openings returns the orders to begin with: by latest start with the teams that end each task soonest, the same but
// musts before shoulds before coulds, then with the smallest and the largest teams. With an older plan they are its
// order and teams, its order with one more hand on each task, and the first two orders with its teams. A task that it
// does not have, or has at another place, is ordered by its latest start and gets the team that ends it soonest.
func (d *decoder) openings(like *Schedule) []genetic.Plan {
	tails := make([]int, len(d.tasks))
	for at := len(d.order) - 1; at >= 0; at-- {
		task := d.order[at]
		for _, next := range d.before[1][task] {
			tails[task] = max(tails[task], tails[next]+d.lag(task, next))
		}
		t := &d.tasks[task]
		tails[task] += minutesFor(d.work[task], d.speed[task].team((t.Least+t.Most+1)/2, 0))
	}
	plans := make([]genetic.Plan, 4)
	for i := range plans {
		plans[i] = genetic.NewPlan(len(d.tasks), true)
		for task := range d.tasks {
			plans[i].Start[task] = d.job.Doors - tails[task]
			if i == 1 {
				plans[i].Start[task] += int(d.level[task]) * maxMinutes
			}
			plans[i].Genes[task] = [4]uint8{greedy, greedy, 0, uint8(d.Genes(task) - 1)}[i]
		}
	}
	if like != nil && like.network.genes != nil {
		d.follow(like, plans)
	}
	return plans
}

// follow sets openings with the order and the teams of an older plan.
func (d *decoder) follow(like *Schedule, plans []genetic.Plan) {
	for task := range d.tasks {
		key := d.tasks[task].Key
		old, at := like.network.planned.number(key, task), like.planned.number(key, task)
		start, gene, more := plans[0].Start[task], uint8(greedy), uint8(greedy)
		if at >= 0 && like.planned.tasks[at].Place == d.tasks[task].Place {
			start, gene, more = like.Slots[at].Start, d.geneOf(task, like, old, 0), d.geneOf(task, like, old, 1)
		}
		plans[2].Start[task], plans[3].Start[task] = start, start
		for i, g := range [4]uint8{gene, gene, gene, more} {
			plans[i].Genes[task] = g
		}
	}
	plans[0], plans[2] = plans[2], plans[0]
}

// geneOf returns the gene of a team with the given number of hands more than a task of an older plan had, with the same
// taste.
func (d *decoder) geneOf(task int, like *Schedule, old, more int) uint8 {
	hands, slowFirst := like.network.planned.team(old, like.network.genes[old])
	t, tastes := &d.tasks[task], d.tastes(d.tasks[task].Place)
	gene := tastes * (min(t.Most, max(t.Least, hands+more)) - t.Least)
	if tastes == 2 && slowFirst {
		gene++
	}
	return uint8(min(gene, d.Genes(task)-1))
}
