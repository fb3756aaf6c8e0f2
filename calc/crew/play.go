package crew

import "math"

// player runs a network: when each node ends, given how long tasks take. Every
// step is a maximum or a sum of things that only grow, so longer times never end
// anything sooner.
type player struct {
	network
	model    *model    // of the job at hand
	same     []int     // its task for each task of the network, -1: left out
	scale    []float64 // work of the task now over work when planned
	who      []int     // its person for each person of the network
	starts   []float64
	ends     []float64
	decided  []int // the node that kept a node from beginning sooner, -1 if none
	arrive   []float64
	arrivals [][]float64 // of the people of each rest, if wanted
	free     []float64   // from when each person of the network is free
	freeBy   []int       // the node they come from then, -1 if none
}

// newPlayer makes the network of a plan run on a job that has the same people, by
// key, and perhaps others; tasks are found by key. It is nil if the plan does not
// fit the job.
func newPlayer(w *network, m *model) *player {
	n, planned := len(w.nodes), w.planned
	p := &player{network: *w, model: m, starts: floats(n), ends: floats(n), decided: ints(n)}
	if !p.findTasks() {
		return nil
	}
	people := planned.job.People
	p.who, p.free, p.freeBy = ints(len(people)), floats(len(people)), ints(len(people))
	for i := range people {
		p.who[i] = -1
		for k := range m.job.People {
			if m.job.People[k].Key == people[i].Key {
				p.who[i] = k
			}
		}
	}
	for i := range w.nodes {
		n := &w.nodes[i]
		for k := range n.people {
			person := n.people[k].person
			if p.same[n.task] >= 0 && (p.who[person] < 0 || p.calendar(n.task, person) == nil) {
				return nil
			}
		}
	}
	for old, task := range p.same {
		if task >= 0 && p.planned.work[old] > 0 && !p.pinned(old, task) {
			return nil
		}
	}
	return p
}

// pinned tells whether those who took a task are in its team, one of them if it is shared.
func (p *player) pinned(old, task int) bool {
	missing := 0
	for _, taker := range p.model.taken[task] {
		missing++
		for i := range p.parts[old] {
			for k := range p.nodes[p.parts[old][i]].people {
				if p.who[p.nodes[p.parts[old][i]].people[k].person] == taker {
					missing--
				}
			}
		}
	}
	return missing <= 0 || p.model.tasks[task].Splittable && missing < len(p.model.taken[task])
}

// findTasks tells whether every task of the job is in the plan, with work if it has any now.
func (p *player) findTasks() bool {
	planned, m := p.planned, p.model
	p.same, p.scale = ints(len(planned.tasks)), floats(len(planned.tasks))
	found := 0
	for i := range planned.tasks {
		now := m.number(planned.tasks[i].Key, i)
		p.same[i] = now
		if now < 0 {
			continue
		}
		found++
		p.scale[i] = 1
		if before, work := planned.work[i], m.work[now]; before > 0 {
			p.scale[i] = float64(work) / float64(before)
		} else if work > 0 {
			return false
		}
	}
	return found == len(m.tasks)
}

func (p *player) calendar(task, person int) calendar {
	return p.model.cals[0][p.model.tasks[p.same[task]].Place][p.who[person]]
}

// run plays the network once; factor is how many times as long each task of the
// job takes, nil for once. Whole rounds every end up to a minute.
func (p *player) run(factor []float64, whole bool) {
	for i := range p.free {
		p.free[i], p.freeBy[i] = float64(p.model.job.Now), -1
	}
	for i := range p.nodes {
		n := &p.nodes[i]
		task := p.same[n.task]
		ready, by := p.ready(n)
		if task < 0 {
			p.starts[i], p.ends[i], p.decided[i] = ready, ready, by
			continue
		}
		times := p.scale[n.task]
		if factor != nil {
			times = float64(times * factor[task])
		}
		if n.rest {
			p.end(i, ready, by, times)
		} else {
			p.alone(i, ready, by, times)
		}
		if whole {
			p.ends[i] = roundUp(p.ends[i])
		}
		end := p.ends[i]
		for k := range n.people {
			if person := n.people[k].person; end > p.free[person] {
				p.free[person], p.freeBy[person] = end, i
			}
		}
	}
}

// roundUp is the next whole minute; a millionth of one is forgiven.
func roundUp(minutes float64) float64 {
	whole := float64(int(minutes))
	if minutes-whole > 1e-6 {
		whole++
	}
	return whole
}

// ready is when what comes before a node and the things it needs let it begin, and
// which node decided that.
func (p *player) ready(n *node) (ready float64, by int) {
	ready, by = float64(p.model.job.Now), -1
	task := p.same[n.task]
	if task >= 0 {
		ready = float64(p.model.earliest(task))
	}
	for _, before := range n.waits {
		end := p.ends[before]
		if first := p.same[p.nodes[before].task]; first >= 0 && task >= 0 {
			end += float64(p.model.lag(first, task))
		}
		if end > ready {
			ready, by = end, before
		}
	}
	return ready, by
}

// comes is when somebody can come, and the node that lets them: their own last one,
// or that of the one whose room they take; -1 if there is none.
func (p *player) comes(m *member) (float64, int) {
	if m.room >= 0 && p.ends[m.room] > p.free[m.person] {
		return p.ends[m.room], m.room
	}
	return p.free[m.person], p.freeBy[m.person]
}

// alone plays a task that is not interrupted, or one person's spell.
func (p *player) alone(i int, ready float64, by int, times float64) {
	n := &p.nodes[i]
	for k := range n.people {
		if at, from := p.comes(&n.people[k]); at > ready {
			ready, by = at, from
		}
	}
	p.decided[i] = by
	minutes := float64(n.length * times)
	if len(n.people) == 0 {
		p.starts[i], p.ends[i] = ready, ready+minutes
		return
	}
	if p.model.tasks[p.same[n.task]].Splittable {
		cal := p.calendar(n.task, n.people[0].person)
		p.starts[i], p.ends[i] = cal.room(ready, 0), cal.advance(ready, minutes)
		return
	}
	planned := float64(n.length * p.scale[n.task])
	for moved := true; moved; {
		moved = false
		for k := range n.people {
			person, room := n.people[k].person, planned
			if p.model.took(p.same[n.task], p.who[person]) {
				room = 0
			}
			if at := p.calendar(n.task, person).room(ready, room); at > ready {
				ready, moved = at, true
			}
		}
	}
	p.starts[i], p.ends[i] = ready, ready+minutes
}

// end plays the rest of a shared task: its people come as they can and all go on
// until it is done.
func (p *player) end(i int, ready float64, by int, times float64) {
	n := &p.nodes[i]
	p.arrive = p.arrive[:0]
	first, last, late := float64(forever), -float64(forever), by
	for k := range n.people {
		at := ready
		if free, from := p.comes(&n.people[k]); free > at {
			if at = free; at > last {
				late = from
			}
		}
		first, last = min(first, at), max(last, at)
		p.arrive = append(p.arrive, at)
	}
	done := p.together(n, float64(n.share*times), first)
	for _, part := range p.parts[n.task] {
		if part < i && p.ends[part] > done {
			done, late = p.ends[part], part
		}
	}
	p.starts[i], p.ends[i], p.decided[i] = first, done, late
	if p.arrivals != nil {
		p.arrivals[i] = append([]float64(nil), p.arrive...)
	}
}

// together is when people who have arrived one after the other have done a share
// of a task: a walk over the minutes at which somebody comes or goes. Each is taken
// to get as much done as on average in the plan, however many there are.
func (p *player) together(n *node, share, now float64) float64 {
	if share <= 0 {
		return now
	}
	for now < forever {
		speed, next := 0.0, float64(forever)
		for k := range n.people {
			m := &n.people[k]
			if p.arrive[k] > now {
				next = min(next, p.arrive[k])
				continue
			}
			here := p.calendar(n.task, m.person).at(int(math.Floor(now)))
			if float64(here.From) > now {
				next = min(next, float64(here.From))
				continue
			}
			speed += m.speed
			next = min(next, float64(here.To))
		}
		if minutes := next - now; float64(speed*minutes) >= share {
			return now + share/speed
		}
		share -= float64(speed * (next - now))
		now = next
	}
	return now
}
