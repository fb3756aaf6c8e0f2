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
	decided  []int       // the node that kept a node from beginning sooner, -1 if none
	undone   []float64   // share of each task that people who left have not done
	team     []int       // who is on the node being played, for each of its people; -1: nobody
	slow     []float64   // times as long as the one planned takes each of them
	replaced bool        // somebody is not on it as planned
	arrive   []float64   // when each of them comes
	arriveBy []int       // the node that let them come, -1 if none
	arrivals [][]float64 // of the people of each rest, if wanted
	teams    [][]int     // of each node, if wanted
	free     []float64   // from when each person of the network is free
	freeBy   []int       // the node they come from then, -1 if none
	fitted   []fitted    // each node, fitted to the job at hand
}

// fitted is what playing a node takes from the job at hand, found once for all runs.
type fitted struct {
	task     int     // the job's task; -1: left out
	earliest float64 // the minute before which it must not begin
	waits    []wait
	people   []hand
	counts   bool // is to be done by the doors
	must     bool // and must be there
}

// wait is a node that another waits for, and the minutes between them.
type wait struct {
	node int
	lag  float64
}

// hand is somebody on a node.
type hand struct {
	calendar
	from, to float64 // the time in the calendar that the plan has them in
	back     float64 // see member
	took     bool    // the task
}

// newPlayer makes the network of a plan run on a job that has the same people, by
// key, and perhaps others; tasks are found by key. It is nil if the plan does not
// fit the job.
func newPlayer(w *network, m *model) *player {
	n, planned := len(w.nodes), w.planned
	p := &player{network: *w, model: m, starts: make([]float64, n), ends: make([]float64, n), decided: make([]int, n),
		undone: make([]float64, len(planned.tasks))}
	if !p.findTasks() {
		return nil
	}
	people := planned.job.People
	p.who, p.free, p.freeBy = make([]int, len(people)), make([]float64, len(people)), make([]int, len(people))
	for i := range people {
		p.who[i] = -1
		for k := range m.job.People {
			if m.job.People[k].Key == people[i].Key {
				p.who[i] = k
			}
		}
	}
	p.fitted = make([]fitted, n)
	for i := range p.fitted {
		if !p.fit(i) {
			return nil
		}
	}
	for old, task := range p.same {
		if task >= 0 && p.planned.work[old] > 0 && !p.pinned(old, task) {
			return nil
		}
	}
	return p
}

// fit fits a node to the job. It reports whether all its people are still there.
func (p *player) fit(i int) bool {
	n, f, m := &p.nodes[i], &p.fitted[i], p.model
	f.task, f.earliest = p.same[n.task], float64(m.job.Now)
	f.waits = make([]wait, len(n.waits))
	for k, before := range n.waits {
		f.waits[k].node = before
		if first := p.same[p.nodes[before].task]; first >= 0 && f.task >= 0 {
			f.waits[k].lag = float64(m.lag(first, f.task))
		}
	}
	if f.task < 0 {
		return true
	}
	f.earliest = float64(m.earliest(f.task))
	f.counts = m.tasks[f.task].Place != TakeDown
	f.must = f.counts && m.level[f.task] == Must
	f.people = make([]hand, len(n.people))
	for k := range n.people {
		person, h := n.people[k].person, &f.people[k]
		if p.who[person] < 0 {
			return false
		}
		if h.calendar = p.calendar(n.task, person); h.calendar == nil {
			return false
		}
		planned := h.at(n.people[k].from)
		h.from, h.to, h.back = float64(planned.From), float64(planned.To), float64(n.people[k].back)
		h.took = m.took(f.task, p.who[person])
	}
	return true
}

// pinned reports whether the people who took a task are in its team, at least one of them if it is shared.
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

// findTasks reports whether every task of the job is in the plan, with work if it has any now.
func (p *player) findTasks() bool {
	planned, m := p.planned, p.model
	p.same, p.scale = make([]int, len(planned.tasks)), make([]float64, len(planned.tasks))
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

// run simulates the network once. factor is how many times as long each task of the job takes, nil for once. whole
// rounds every end up to a minute.
func (p *player) run(factor []float64, whole bool) {
	for i := range p.free {
		p.free[i], p.freeBy[i] = float64(p.model.job.Now), -1
	}
	clear(p.undone)
	for i := range p.nodes {
		n, f := &p.nodes[i], &p.fitted[i]
		ready, by := p.ready(f)
		if f.task < 0 {
			p.starts[i], p.ends[i], p.decided[i] = ready, ready, by
			continue
		}
		p.gather(n, ready, by)
		times := p.scale[n.task]
		if factor != nil {
			times = float64(times * factor[f.task])
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
		for _, person := range p.team {
			if person >= 0 && end > p.free[person] {
				p.free[person], p.freeBy[person] = end, i
			}
		}
		if p.arrivals != nil {
			p.teams[i] = append([]int(nil), p.team...)
			p.arrivals[i] = append([]float64(nil), p.arrive...)
		}
	}
}

// roundUp returns the next whole minute. It ignores a millionth of one.
func roundUp(minutes float64) float64 {
	whole := float64(int(minutes))
	if minutes-whole > 1e-6 {
		whole++
	}
	return whole
}

// ready is when what comes before a node and the things it needs let it begin, and
// which node decided that.
func (p *player) ready(f *fitted) (ready float64, by int) {
	ready, by = f.earliest, -1
	for k := range f.waits {
		w := &f.waits[k]
		if end := p.ends[w.node] + w.lag; end > ready {
			ready, by = end, w.node
		}
	}
	return ready, by
}

// gather notes who is on a node, and when each of them can come.
func (p *player) gather(n *node, ready float64, by int) {
	p.team, p.slow, p.arrive, p.arriveBy = p.team[:0], p.slow[:0], p.arrive[:0], p.arriveBy[:0]
	p.replaced = false
	for k := range n.people {
		at, from := p.comes(&n.people[k])
		if at <= ready {
			at, from = ready, by
		}
		p.team, p.arriveBy = append(p.team, n.people[k].person), append(p.arriveBy, from)
		p.slow, p.arrive = append(p.slow, 1), append(p.arrive, at)
	}
}

// comes is when somebody can come, and the node that lets them: their own last one,
// or that of the one whose room they take; -1 if there is none.
func (p *player) comes(m *member) (float64, int) {
	if m.room >= 0 && p.ends[m.room] > p.free[m.person] {
		return p.ends[m.room], m.room
	}
	return p.free[m.person], p.freeBy[m.person]
}

// come is when somebody on a node who would come at a minute is there for as long as is
// planned, or at least so long if it is later than planned: then, later by their calendar,
// or, if they have left, the one who takes over in their place, or the others go on without
// them where they are enough. The node that decides that is in arriveBy, -1 if none.
func (p *player) come(i, k int, at, planned, least float64, over bool) float64 {
	n, f := &p.nodes[i], &p.fitted[i]
	m, h, task := &n.people[k], &f.people[k], f.task
	if at >= h.from && at+planned <= h.to && at < h.back && p.team[k] == m.person {
		return at // as nearly always: within the time that the plan has them in
	}
	cal := p.calendar(n.task, p.team[k])
	here := sooner(cal.room(at, planned), cal.room(later(at, float64(n.from)), least))
	last := float64(p.model.last[p.model.tasks[task].Place])
	gone := here >= float64(m.back) && at < last
	if here <= at && !(gone && over && m.relief >= 0) {
		return at
	}
	p.arriveBy[k] = -1
	gone = gone || here >= last
	if r := m.relief; over && gone && r >= 0 && p.who[r] >= 0 && p.calendar(n.task, r) != nil {
		p.team[k], p.replaced = r, true
		if p.model.job.People[p.who[m.person]].Practised && !p.model.job.People[p.who[r]].Practised {
			p.slow[k] = max(1, p.model.tasks[task].Beginner)
		}
		if p.free[r] > at {
			at, p.arriveBy[k] = p.free[r], p.freeBy[r]
		}
		return p.come(i, k, at, 0, 0, false)
	}
	if hands := p.present(); over && gone && least > 0 && hands > p.model.tasks[task].Least {
		p.team[k], p.replaced = -1, true
		return at
	}
	return here
}

// present is how many are on the node being played.
func (p *player) present() (hands int) {
	for _, person := range p.team {
		if person >= 0 {
			hands++
		}
	}
	return hands
}

// without is how many times as long the node being played takes those who are on it as all
// who were planned.
func (p *player) without(n *node) float64 {
	all, rest := [2]int{}, [2]int{}
	for k := range n.people {
		skilled := 0
		if p.model.job.People[p.who[n.people[k].person]].Practised {
			skilled = 1
		}
		all[skilled]++
		if p.team[k] >= 0 {
			rest[skilled]++
		}
	}
	if all == rest {
		return 1
	}
	speed := &p.model.speed[p.same[n.task]]
	return float64(speed.team(all[1], all[0])) / float64(speed.team(rest[1], rest[0]))
}

// alone plays a task that is not interrupted, or one person's spell. Somebody begins
// late if they are there for half of what is planned at least, or took the task, and
// then stays on to the end; who has left before is relieved or done without. That half is
// from memory, no source. What is left of a spell when they go is for the others.
func (p *player) alone(i int, ready float64, by int, times float64) {
	n, f := &p.nodes[i], &p.fitted[i]
	task := f.task
	minutes := float64(n.length * times)
	if len(n.people) > 0 && p.model.tasks[task].Splittable {
		last := min(p.model.last[p.model.tasks[task].Place], n.people[0].back)
		begin := p.come(i, 0, p.arrive[0], 0, 0, false)
		end, left := p.calendar(n.task, p.team[0]).advance(p.arrive[0], minutes, float64(last))
		if left > 0 {
			p.undone[n.task] += float64(n.share * (left / minutes))
		}
		p.starts[i], p.ends[i], p.decided[i] = sooner(begin, end), end, p.arriveBy[0]
		return
	}
	planned := float64(n.length * p.scale[n.task])
	for moved := true; moved; {
		moved = false
		for k := range n.people {
			if p.team[k] < 0 {
				continue
			}
			least := planned / 2
			if f.people[k].took {
				least = 0
			}
			if at := p.come(i, k, later(ready, p.arrive[k]), planned, least, true); at > ready {
				ready, by, moved = at, p.arriveBy[k], true
			}
		}
	}
	if p.replaced {
		slowest := 1.0
		for k := range n.people {
			slowest = later(slowest, p.slow[k])
		}
		minutes = float64(minutes * slowest * p.without(n))
	}
	p.starts[i], p.ends[i], p.decided[i] = ready, ready+minutes, by
}

// end plays the rest of a shared task: its people come as they can and all go on
// until it is done.
func (p *player) end(i int, ready float64, by int, times float64) {
	n := &p.nodes[i]
	first := float64(forever)
	for k := range n.people {
		p.arrive[k] = p.come(i, k, p.arrive[k], 0, 0, n.people[k].keeps)
		first = sooner(first, p.arrive[k])
	}
	done := p.together(n, float64((n.share+p.undone[n.task])*times), first)
	last := -float64(forever)
	for k := range n.people {
		if at := p.arrive[k]; at > last && (at < done || at == first) {
			last, by = at, p.arriveBy[k]
		}
	}
	for _, part := range p.parts[n.task] {
		if part < i && p.ends[part] > done {
			done, by = p.ends[part], part
		}
	}
	p.starts[i], p.ends[i], p.decided[i] = first, done, by
}

// together is when people who have arrived one after the other have done a share
// of a task: a walk over the minutes at which somebody comes or goes. Each is taken
// to get as much done as on average in the plan, however many there are. The last to
// leave stays on.
func (p *player) together(n *node, share, now float64) float64 {
	if share <= 0 {
		return now
	}
	last := p.model.last[p.model.tasks[p.same[n.task]].Place]
	for now < forever {
		speed, next := 0.0, float64(forever)
		for k := range n.people {
			m := &n.people[k]
			if p.arrive[k] > now {
				next = sooner(next, p.arrive[k])
				continue
			}
			here := p.calendar(n.task, p.team[k]).at(int(math.Floor(now)))
			if float64(here.From) <= now {
				next = sooner(next, float64(here.To))
			} else if !m.keeps || here.From < last {
				next = sooner(next, float64(here.From))
				continue
			}
			speed += m.speed / p.slow[k]
		}
		if minutes := next - now; float64(speed*minutes) >= share {
			return now + share/speed
		}
		share -= float64(speed * (next - now))
		now = next
	}
	return now
}

// later and sooner are max and min of numbers that are numbers: those of the language also look for what is none, which
// takes a phone several times as long.
func later(a, b float64) float64 {
	if a < b {
		return b
	}
	return a
}

func sooner(a, b float64) float64 {
	if b < a {
		return b
	}
	return a
}
