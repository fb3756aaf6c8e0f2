package rcpsp

import "garlandry/calc/crew/genetic"

// Parallel is the parallel scheme: minute by minute, of the tasks whose
// predecessors are done and whose needs are free, the one with the lowest key
// begins at once. No one ever waits who could begin, which the best schedule may
// need.
func (p *Project) Parallel(keys []int) genetic.Plan {
	plan := genetic.NewPlan(len(p.duration), false)
	p.profile.clear(p.full)
	var eligible []int
	for task := range p.ready {
		p.ready[task] = 0
		if p.waiting[task] = len(p.before[0][task]); p.waiting[task] == 0 {
			eligible = append(eligible, task)
		}
	}
	for now := 0; len(eligible) > 0; {
		at := p.startable(eligible, keys, now)
		if at < 0 {
			now = p.nextEvent(plan.Finish, eligible, now)
			continue
		}
		task := eligible[at]
		eligible = append(eligible[:at], eligible[at+1:]...)
		end := now + p.duration[task]
		p.profile.take(now, p.duration[task], p.packed[task])
		plan.Start[task], plan.Finish[task] = now, end
		plan.Cost = max(plan.Cost, end)
		for _, next := range p.after[0][task] {
			p.ready[next] = max(p.ready[next], end)
			if p.waiting[next]--; p.waiting[next] == 0 {
				eligible = append(eligible, next)
			}
		}
	}
	return plan
}

// startable is the place in eligible of the task with the lowest key that can
// begin now; -1 if none can.
func (p *Project) startable(eligible, keys []int, now int) int {
	best := -1
	for i, task := range eligible {
		if p.ready[task] > now || p.profile.earliest(now, p.duration[task], p.packed[task]) > now {
			continue
		}
		if best < 0 || keys[task] < keys[eligible[best]] || keys[task] == keys[eligible[best]] && task < eligible[best] {
			best = i
		}
	}
	return best
}

// nextEvent is the next time at which a task ends or one that is eligible may begin.
func (p *Project) nextEvent(finish, eligible []int, now int) int {
	next := -1
	sooner := func(t int) {
		if t > now && (next < 0 || t < next) {
			next = t
		}
	}
	for _, end := range finish {
		sooner(end)
	}
	for _, task := range eligible {
		sooner(p.ready[task])
	}
	return next
}
