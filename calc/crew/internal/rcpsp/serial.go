package rcpsp

import "garlandry/calc/crew/genetic"

// Forward is the serial scheme: task by task, of those that wait for nothing the
// one with the lowest key, each as early as what it waits for and what is free
// allow. The cost is the length.
func (p *Project) Forward(keys []int, plan *genetic.Plan) {
	plan.Cost = p.serial(0, keys, plan.Start, plan.Finish)
}

// Backward is the serial scheme from the end: each task as late as it can, so that
// the last finish at 0 and the times are negative or 0. The cost is the length.
func (p *Project) Backward(keys []int, plan *genetic.Plan) {
	plan.Cost = p.serial(1, keys, plan.Start, plan.Finish)
	for task, start := range plan.Start {
		plan.Start[task], plan.Finish[task] = -plan.Finish[task], -start
	}
}

func (p *Project) serial(side int, keys, start, finish []int) (length int) {
	p.profile.clear(p.full)
	p.heap = p.heap[:0]
	for task := range p.ready {
		p.ready[task] = 0
		if p.waiting[task] = len(p.before[side][task]); p.waiting[task] == 0 {
			p.heap = append(p.heap, task)
		}
	}
	for len(p.heap) > 0 {
		task := p.lowest(keys)
		at := p.profile.earliest(p.ready[task], p.duration[task], p.packed[task])
		p.profile.take(at, p.duration[task], p.packed[task])
		end := at + p.duration[task]
		start[task], finish[task] = at, end
		length = max(length, end)
		for _, next := range p.after[side][task] {
			p.ready[next] = max(p.ready[next], end)
			if p.waiting[next]--; p.waiting[next] == 0 {
				p.heap = append(p.heap, next)
			}
		}
	}
	return length
}

// lowest takes the task with the lowest key out of those that may be scheduled;
// of equal ones the lowest number.
func (p *Project) lowest(keys []int) int {
	best := 0
	for i, task := range p.heap {
		if key, least := keys[task], keys[p.heap[best]]; key < least || key == least && task < p.heap[best] {
			best = i
		}
	}
	task := p.heap[best]
	p.heap[best] = p.heap[len(p.heap)-1]
	p.heap = p.heap[:len(p.heap)-1]
	return task
}
