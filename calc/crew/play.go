package crew

// player runs a network: when each node ends, given how long tasks take. Every
// step is a maximum or a sum of things that only grow, so longer times never end
// anything sooner.
type player struct {
	*network
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
// key, and perhaps others; tasks are found by key.
func newPlayer(w *network, planned, m *model) (*player, bool) {
	p := &player{network: w, model: m, starts: make([]float64, len(w.nodes)), ends: make([]float64, len(w.nodes)), decided: make([]int, len(w.nodes))}
	numbers := make(map[string]int, len(m.tasks))
	for i, task := range m.tasks {
		numbers[task.Key] = i
	}
	for i, task := range planned.tasks {
		now, known := numbers[task.Key]
		if !known {
			p.same, p.scale = append(p.same, -1), append(p.scale, 0)
			continue
		}
		delete(numbers, task.Key)
		scale := 1.0
		if planned.work[i] > 0 {
			scale = float64(m.work[now]) / float64(planned.work[i])
		} else if m.work[now] > 0 {
			return nil, false
		}
		p.same, p.scale = append(p.same, now), append(p.scale, scale)
	}
	if len(numbers) > 0 {
		return nil, false
	}
	for _, person := range planned.job.People {
		who := -1
		for k, other := range m.job.People {
			if other.Key == person.Key {
				who = k
			}
		}
		p.who = append(p.who, who)
	}
	p.free, p.freeBy = make([]float64, len(p.who)), make([]int, len(p.who))
	for _, n := range w.nodes {
		for _, m := range n.people {
			if p.same[n.task] >= 0 && (p.who[m.person] < 0 || p.calendar(n.task, m.person) == nil) {
				return nil, false
			}
		}
	}
	return p, true
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
		switch {
		case n.rest:
			p.end(i, ready, by, times)
		default:
			p.alone(i, ready, by, times)
		}
		if whole {
			p.ends[i] = roundUp(p.ends[i])
		}
		for _, m := range n.people {
			if p.ends[i] > p.free[m.person] {
				p.free[m.person], p.freeBy[m.person] = p.ends[i], i
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
	if task := p.same[n.task]; task >= 0 {
		ready = float64(p.model.earliest(task))
	}
	for _, before := range n.waits {
		end := p.ends[before]
		if a, b := p.same[p.nodes[before].task], p.same[n.task]; a >= 0 && b >= 0 {
			end += float64(p.model.lag(a, b))
		}
		if end > ready {
			ready, by = end, before
		}
	}
	return ready, by
}

// comes is when somebody can come, and the node that lets them: their own last one,
// or that of the one whose room they take; -1 if there is none.
func (p *player) comes(m member) (float64, int) {
	if m.room >= 0 && p.ends[m.room] > p.free[m.person] {
		return p.ends[m.room], m.room
	}
	return p.free[m.person], p.freeBy[m.person]
}

// alone plays a task that is not interrupted, or one person's spell.
func (p *player) alone(i int, ready float64, by int, times float64) {
	n := &p.nodes[i]
	for _, m := range n.people {
		if at, from := p.comes(m); at > ready {
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
		for _, m := range n.people {
			if at := p.calendar(n.task, m.person).room(ready, planned); at > ready {
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
	for _, m := range n.people {
		at := ready
		if free, from := p.comes(m); free > at {
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
		for k, m := range n.people {
			if p.arrive[k] > now {
				next = min(next, p.arrive[k])
				continue
			}
			here := Interval{forever, forever}
			for _, i := range p.calendar(n.task, m.person) {
				if now < float64(i.To) {
					here = i
					break
				}
			}
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
