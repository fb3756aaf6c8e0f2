package crew

import "garlandry/calc/crew/genetic"

// search searches for better schedules of one job.
type search struct {
	decoder *decoder
	genetic *genetic.Search // nil for a job without tasks
}

// newSearch checks a job and prepares a search that is expected to generate budget schedules; more are possible. The
// same job, seed, budget and steps give the same schedules on every machine. The search begins with the plan like, and
// after its own first plans it tries the plan also, unless they are nil.
func newSearch(job *Job, seed uint64, budget int, like, also *Schedule) (*search, error) {
	m, err := newModel(job)
	if err != nil {
		return nil, err
	}
	s := &search{decoder: newDecoder(m)}
	if len(m.tasks) > 0 {
		s.genetic = genetic.New(s.decoder, seed, budget, s.decoder.openings(like, also))
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

// openings returns the orders to begin with: by latest start, with the teams that end each task soonest, with the
// smallest and with the largest teams. With an older plan they are its order and teams, the order by latest start with
// its teams, and its order with one more hand on each task. A task that it does not have, or has at another place, is
// ordered by its latest start and gets the team that ends it soonest. A plan that is also to be tried comes last: its
// order and teams, and the same with one more hand.
func (d *decoder) openings(like, also *Schedule) []genetic.Plan {
	tails := make([]int, len(d.tasks))
	for at := len(d.order) - 1; at >= 0; at-- {
		task := d.order[at]
		for _, next := range d.before[1][task] {
			tails[task] = max(tails[task], tails[next]+d.lag(task, next))
		}
		t := &d.tasks[task]
		tails[task] += minutesFor(d.work[task], d.speed[task].team((t.Least+t.Most+1)/2, 0))
	}
	plans := make([]genetic.Plan, 3)
	for i := range plans {
		plans[i] = genetic.NewPlan(len(d.tasks), true)
		for task := range d.tasks {
			plans[i].Start[task] = d.job.Doors - tails[task]
			plans[i].Genes[task] = [3]uint8{greedy, 0, uint8(d.Genes(task) - 1)}[i]
		}
	}
	if also != nil && also.network.genes != nil {
		same, more := genetic.NewPlan(len(d.tasks), true), genetic.NewPlan(len(d.tasks), true)
		copy(same.Start, plans[0].Start)
		copy(more.Start, plans[0].Start)
		d.follow(also, &same, &more)
		plans = append(plans, same, more)
	}
	if like != nil && like.network.genes != nil {
		copy(plans[1].Start, plans[0].Start)
		d.follow(like, &plans[0], &plans[2])
		copy(plans[1].Genes, plans[0].Genes)
	}
	return plans
}

// follow gives two openings the order and the teams of an older plan, the second with one more hand on each task. An
// opening keeps its start for a task that is new.
func (d *decoder) follow(like *Schedule, same, more *genetic.Plan) {
	for task := range d.tasks {
		key := d.tasks[task].Key
		old, at := like.network.planned.number(key, task), like.planned.number(key, task)
		same.Genes[task], more.Genes[task] = greedy, greedy
		if at >= 0 && like.planned.tasks[at].Place == d.tasks[task].Place {
			same.Genes[task], more.Genes[task] = d.geneOf(task, like, old, 0), d.geneOf(task, like, old, 1)
			same.Start[task], more.Start[task] = like.Slots[at].Start, like.Slots[at].Start
		}
	}
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
