package crew

import "math"

// simulator runs a network: it computes when each node ends, given how long tasks take. Every step is a maximum or a
// sum of growing values, so longer durations never end anything sooner.
type simulator struct {
	network
	model    *model    // of the job
	same     []int     // the job's task for each task of the network; -1: left out
	scale    []float64 // work of the task now divided by the planned work
	who      []int     // the job's person for each person of the network
	starts   []float64
	ends     []float64
	decided  []int       // the node that kept each node from beginning sooner, or -1
	undone   []float64   // share of each task that people who left have not done
	team     []int       // who is on the current node, for each of its people; -1: nobody
	slow     []float64   // each one's time over that of the planned person
	replaced bool        // the team differs from the planned one
	arrive   []float64   // when each of them comes
	arriveBy []int       // the node that decided when they come, or -1
	arrivals [][]float64 // of the people of each rest, if requested
	teams    [][]int     // of each node, if requested
	free     []float64   // from when each person of the network is free
	freeBy   []int       // the node they come from, or -1
	fitted   []fitted    // each node, fitted to the job
}

// fitted holds what a simulation of a node needs from the job, computed once for all runs.
type fitted struct {
	task     int     // the job's task; -1: left out
	earliest float64 // the minute before which it must not begin
	waits    []wait
	people   []hand
	level    Priority
	counts   bool // must be done by the doors
}

// wait is a node that another waits for, and the minutes between them.
type wait struct {
	node int
	lag  float64
}

// hand is a person on a node.
type hand struct {
	calendar
	from, to float64 // the calendar's interval at the planned minute
	back     float64 // see member
	took     bool    // the task
}

// newSimulator returns a simulator of a plan's network for a job with the same people, and perhaps others. It finds
// people and tasks by key. It returns nil if the plan does not fit the job.
func newSimulator(w *network, m *model) *simulator {
	n, planned := len(w.nodes), w.planned
	s := &simulator{network: *w, model: m, starts: make([]float64, n), ends: make([]float64, n), decided: make([]int, n),
		undone: make([]float64, len(planned.tasks))}
	if !s.findTasks() {
		return nil
	}
	people := planned.job.People
	s.who, s.free, s.freeBy = make([]int, len(people)), make([]float64, len(people)), make([]int, len(people))
	for i := range people {
		s.who[i] = -1
		for k := range m.job.People {
			if m.job.People[k].Key != people[i].Key {
				continue
			}
			if people[i].Practised && !m.job.People[k].Practised {
				return nil // the network has the speed of practised hands
			}
			s.who[i] = k
		}
	}
	s.fitted = make([]fitted, n)
	for i := range s.fitted {
		if !s.fit(i) {
			return nil
		}
	}
	for old, task := range s.same {
		if task >= 0 && s.planned.work[old] > 0 && !s.pinned(old, task) {
			return nil
		}
	}
	return s
}

// fit fits a node to the job. It reports whether the job still has all its people.
func (s *simulator) fit(i int) bool {
	n, f, m := &s.nodes[i], &s.fitted[i], s.model
	f.task, f.earliest = s.same[n.task], float64(m.job.Now)
	f.waits = make([]wait, len(n.waits))
	for k, before := range n.waits {
		f.waits[k].node = before
		if first := s.same[s.nodes[before].task]; first >= 0 && f.task >= 0 {
			f.waits[k].lag = float64(m.lag(first, f.task))
		}
	}
	if f.task < 0 {
		return true
	}
	f.earliest = float64(m.earliest(f.task))
	f.counts = m.tasks[f.task].Place != TakeDown
	f.level = m.level[f.task]
	f.people = make([]hand, len(n.people))
	for k := range n.people {
		person, h := n.people[k].person, &f.people[k]
		if s.who[person] < 0 {
			return false
		}
		if h.calendar = s.calendar(n.task, person); h.calendar == nil {
			return false
		}
		planned := h.at(n.people[k].from)
		h.from, h.to, h.back = float64(planned.From), float64(planned.To), float64(n.people[k].back)
		h.took = m.took(f.task, s.who[person])
	}
	return true
}

// pinned reports whether the people who took a task are in its team, at least one of them if it is shared.
func (s *simulator) pinned(old, task int) bool {
	missing := 0
	for _, taker := range s.model.taken[task] {
		missing++
		for i := range s.parts[old] {
			for k := range s.nodes[s.parts[old][i]].people {
				if s.who[s.nodes[s.parts[old][i]].people[k].person] == taker {
					missing--
				}
			}
		}
	}
	return missing <= 0 || s.model.tasks[task].Splittable && missing < len(s.model.taken[task])
}

// findTasks reports whether every task of the job is in the plan, with work if it has any now.
func (s *simulator) findTasks() bool {
	planned, m := s.planned, s.model
	s.same, s.scale = make([]int, len(planned.tasks)), make([]float64, len(planned.tasks))
	found := 0
	for i := range planned.tasks {
		now := m.number(planned.tasks[i].Key, i)
		s.same[i] = now
		if now < 0 {
			continue
		}
		found++
		s.scale[i] = 1
		if before, work := planned.work[i], m.work[now]; before > 0 {
			s.scale[i] = float64(work) / float64(before)
		} else if work > 0 {
			return false
		}
	}
	return found == len(m.tasks)
}

// calendar returns when a person of the plan can do a task of it; nil if never.
func (s *simulator) calendar(task, person int) calendar {
	if !s.model.may(s.same[task], s.who[person]) {
		return nil
	}
	return s.model.cals[0][s.model.tasks[s.same[task]].Place][s.who[person]]
}

// run simulates the network once. factor multiplies the duration of each task of the job; nil means 1. whole rounds
// every end up to a minute.
func (s *simulator) run(factor []float64, whole bool) {
	for i := range s.free {
		s.free[i], s.freeBy[i] = float64(s.model.job.Now), -1
	}
	clear(s.undone)
	for i := range s.nodes {
		n, f := &s.nodes[i], &s.fitted[i]
		ready, by := s.ready(f)
		if f.task < 0 {
			s.starts[i], s.ends[i], s.decided[i] = ready, ready, by
			continue
		}
		s.gather(n, ready, by)
		times := s.scale[n.task]
		if factor != nil {
			times = float64(times * factor[f.task])
		}
		if n.rest {
			s.end(i, ready, by, times)
		} else {
			s.alone(i, ready, by, times)
		}
		if whole {
			s.ends[i] = roundUp(s.ends[i])
		}
		end := s.ends[i]
		for _, person := range s.team {
			if person >= 0 && end > s.free[person] {
				s.free[person], s.freeBy[person] = end, i
			}
		}
		if s.arrivals != nil {
			s.teams[i] = append([]int(nil), s.team...)
			s.arrivals[i] = append([]float64(nil), s.arrive...)
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

// ready returns when its predecessors and its things allow a node to begin, and the node that decided it.
func (s *simulator) ready(f *fitted) (ready float64, by int) {
	ready, by = f.earliest, -1
	for k := range f.waits {
		w := &f.waits[k]
		if end := s.ends[w.node] + w.lag; end > ready {
			ready, by = end, w.node
		}
	}
	return ready, by
}

// gather sets the people on a node, and when each of them can come.
func (s *simulator) gather(n *node, ready float64, by int) {
	s.team, s.slow, s.arrive, s.arriveBy = s.team[:0], s.slow[:0], s.arrive[:0], s.arriveBy[:0]
	s.replaced = false
	for k := range n.people {
		at, from := s.comes(&n.people[k])
		if at <= ready {
			at, from = ready, by
		}
		s.team, s.arriveBy = append(s.team, n.people[k].person), append(s.arriveBy, from)
		s.slow, s.arrive = append(s.slow, 1), append(s.arrive, at)
	}
}

// comes returns when a person can come, and the node that decides it: their own last one, or that of the person whose
// room they take, or -1.
func (s *simulator) comes(m *member) (float64, int) {
	if m.room >= 0 && s.ends[m.room] > s.free[m.person] {
		return s.ends[m.room], m.room
	}
	return s.free[m.person], s.freeBy[m.person]
}

// come returns when a person on a node, who would come at a minute, can stay for as long as planned, or for at least
// the given time if that is later than planned. This may be at once or later by their calendar. If they have left, as
// all have who come after the last minute of their place and later than planned, their relief takes over, or the others
// go on without them if they are enough. arriveBy holds the node that decides it, or -1.
func (s *simulator) come(i, k int, at, planned, least float64, over bool) float64 {
	n, f := &s.nodes[i], &s.fitted[i]
	m, h, task := &n.people[k], &f.people[k], f.task
	if at >= h.from && at+planned <= h.to && at < h.back && s.team[k] == m.person {
		return at // as nearly always: within the time that the plan has them in
	}
	cal := s.calendar(n.task, s.team[k])
	here := sooner(cal.room(at, planned), cal.room(later(at, float64(n.from)), least))
	last := float64(s.model.last[s.model.tasks[task].Place])
	gone := here >= float64(m.back) && at < last
	if here <= at && !(gone && over && m.relief >= 0) {
		return at
	}
	s.arriveBy[k] = -1
	gone = gone || here >= later(last, float64(m.from)+1)
	if r := m.relief; over && gone && r >= 0 && s.who[r] >= 0 && s.calendar(n.task, r) != nil {
		s.team[k], s.replaced = r, true
		if s.model.job.People[s.who[m.person]].Practised && !s.model.job.People[s.who[r]].Practised {
			s.slow[k] = max(1, s.model.tasks[task].Beginner)
		}
		if s.free[r] > at {
			at, s.arriveBy[k] = s.free[r], s.freeBy[r]
		}
		return s.come(i, k, at, 0, 0, false)
	}
	if hands := s.present(); over && gone && least > 0 && hands > s.model.tasks[task].Least {
		s.team[k], s.replaced = -1, true
		return at
	}
	return here
}

// present returns the number of people on the current node.
func (s *simulator) present() (hands int) {
	for _, person := range s.team {
		if person >= 0 {
			hands++
		}
	}
	return hands
}

// without returns how many times as long the current node takes with the people on it as with all who were planned.
func (s *simulator) without(n *node) float64 {
	all, rest := [2]int{}, [2]int{}
	for k := range n.people {
		skilled := 0
		if s.model.job.People[s.who[n.people[k].person]].Practised {
			skilled = 1
		}
		all[skilled]++
		if s.team[k] >= 0 {
			rest[skilled]++
		}
	}
	if all == rest {
		return 1
	}
	speed := &s.model.speed[s.same[n.task]]
	return float64(speed.team(all[1], all[0])) / float64(speed.team(rest[1], rest[0]))
}

// alone simulates an uninterrupted task, or one person's spell. A person begins late if they can stay for at least half
// of the planned time, or took the task, and then stays to the end. A person who has left before is relieved or done
// without. The half is from memory, no source. The others do what is left of a spell when a person goes.
func (s *simulator) alone(i int, ready float64, by int, times float64) {
	n, f := &s.nodes[i], &s.fitted[i]
	task := f.task
	minutes := float64(n.length * times)
	if len(n.people) > 0 && s.model.tasks[task].Splittable {
		last := min(s.model.last[s.model.tasks[task].Place], n.people[0].back)
		begin := s.come(i, 0, s.arrive[0], 0, 0, false)
		end, left := s.calendar(n.task, s.team[0]).advance(s.arrive[0], minutes, float64(last))
		if left > 0 {
			s.undone[n.task] += float64(n.share * (left / minutes))
		}
		s.starts[i], s.ends[i], s.decided[i] = sooner(begin, end), end, s.arriveBy[0]
		return
	}
	planned := float64(n.length * s.scale[n.task])
	for moved := true; moved; {
		moved = false
		for k := range n.people {
			if s.team[k] < 0 {
				continue
			}
			least := planned / 2
			if f.people[k].took {
				least = 0
			}
			if at := s.come(i, k, later(ready, s.arrive[k]), planned, least, true); at > ready {
				ready, by, moved = at, s.arriveBy[k], true
			}
		}
	}
	if s.replaced {
		slowest := 1.0
		for k := range n.people {
			slowest = later(slowest, s.slow[k])
		}
		minutes = float64(minutes * slowest * s.without(n))
	}
	s.starts[i], s.ends[i], s.decided[i] = ready, ready+minutes, by
}

// end simulates the rest of a shared task: its people come when they can, and all go on until it is done.
func (s *simulator) end(i int, ready float64, by int, times float64) {
	n := &s.nodes[i]
	first := float64(forever)
	for k := range n.people {
		s.arrive[k] = s.come(i, k, s.arrive[k], 0, 0, n.people[k].keeps)
		first = sooner(first, s.arrive[k])
	}
	done := s.together(n, float64((n.share+s.undone[n.task])*times), first)
	last := -float64(forever)
	for k := range n.people {
		if at := s.arrive[k]; at > last && (at < done || at == first) {
			last, by = at, s.arriveBy[k]
		}
	}
	for _, part := range s.parts[n.task] {
		if part < i && s.ends[part] > done {
			done, by = s.ends[part], part
		}
	}
	s.starts[i], s.ends[i], s.decided[i] = first, done, by
}

// together returns when people who arrive one after the other have done a share of a task. It goes through the minutes
// at which somebody comes or goes. Each person works at their average speed in the plan, however many there are. The
// last to leave stays on.
func (s *simulator) together(n *node, share, now float64) float64 {
	if share <= 0 {
		return now
	}
	last := s.model.last[s.model.tasks[s.same[n.task]].Place]
	for now < forever {
		speed, next := 0.0, float64(forever)
		for k := range n.people {
			m := &n.people[k]
			if s.arrive[k] > now {
				next = sooner(next, s.arrive[k])
				continue
			}
			here := s.calendar(n.task, s.team[k]).at(int(math.Floor(now)))
			if float64(here.From) <= now {
				next = sooner(next, float64(here.To))
			} else if !m.keeps || here.From < last {
				next = sooner(next, float64(here.From))
				continue
			}
			speed += m.speed / s.slow[k]
		}
		if minutes := next - now; float64(speed*minutes) >= share {
			return now + share/speed
		}
		share -= float64(speed * (next - now))
		now = next
	}
	return now
}

// later and sooner are max and min without the check for NaN, which takes a phone several times as long.
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
