package rcpsp

import "garlandry/calc/crew/genetic"

// usualTasks is a size of project for which package genetic keeps the right number of
// plans. Smaller projects agree sooner and are given more, larger ones fewer: tuned
// on a part of PSPLIB, of which each half alone gives the same answer.
const usualTasks = 60

// Search improves schedules of the project for as long as it is asked; the same
// seed and budget give the same schedules on every machine. It begins with the
// priority rules. The budget is how many schedules are expected in all; every pass
// of a scheme, forward or backward, counts as one, as in the literature.
func (p *Project) Search(seed uint64, budget int) *genetic.Search {
	var first []genetic.Plan
	for _, rule := range Rules() {
		first = append(first, genetic.Plan{Start: p.Keys(rule)})
	}
	return genetic.New(p, seed, budget*usualTasks/max(usualTasks/2, len(p.duration)), first)
}

// Serial is the schedule of the serial scheme.
func (p *Project) Serial(keys []int) genetic.Plan {
	plan := genetic.NewPlan(len(p.duration), false)
	p.Forward(keys, &plan)
	return plan
}

// Justify pushes a schedule to the right and back to the left, which never makes
// it longer: double justification. It takes two passes.
func (p *Project) Justify(plan genetic.Plan) genetic.Plan {
	keys := make([]int, len(plan.Finish))
	for task, finish := range plan.Finish {
		keys[task] = -finish
	}
	better := genetic.NewPlan(len(keys), false)
	p.Backward(keys, &better)
	copy(keys, better.Start)
	p.Forward(keys, &better)
	return better
}
