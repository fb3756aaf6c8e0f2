package crew

import "garlandry/calc/crew/genetic"

// Hold plans a job anew with the teams of a schedule, in the order of its starts. It is for tasks whose From is later
// now: unlike [Carry], it lets others come before them. It returns ErrChanged for a schedule without a plan and for a
// job without tasks, else the errors of the job.
func Hold(s Schedule, job Job) (Schedule, error) {
	m, err := newModel(&job)
	if err != nil {
		return Schedule{}, err
	}
	if s.planned == nil || s.network.genes == nil || len(m.tasks) == 0 {
		return Schedule{}, ErrChanged
	}
	d := newDecoder(m)
	plan, more := genetic.NewPlan(len(d.tasks), true), genetic.NewPlan(len(d.tasks), true)
	d.follow(&s, &plan, &more)
	for task := range plan.Start {
		plan.Start[task] = max(plan.Start[task], d.tasks[task].From)
	}
	d.pass(0, plan.Start, plan.Genes)
	d.best = d.spells
	d.bestAt = [2][]int{d.starts, d.ends}
	held := d.schedule(false, s.Tried)
	held.network.genes = plan.Genes
	return *held, nil
}
