package crew

import "errors"

// ErrChanged is returned when a schedule cannot be kept: a task of the job is not
// in it, or somebody in it is not in the job.
var ErrChanged = errors.New("the plan does not fit the job any more: make a new one")

// Carry keeps the order and the teams of a schedule for a job that has changed:
// tasks with more or less work, or left out, other windows, more people. With less
// work or more time nothing ends later than in the schedule; its odds under the
// same seed are no worse.
func Carry(s Schedule, job Job) (Schedule, error) {
	m, err := newModel(job)
	if err != nil {
		return Schedule{}, err
	}
	if s.planned == nil {
		return Schedule{}, ErrChanged
	}
	p, ok := newPlayer(s.network, s.planned, m)
	if !ok {
		return Schedule{}, ErrChanged
	}
	p.arrivals = make([][]float64, len(p.nodes))
	p.run(nil, true)
	kept := Schedule{Tried: s.Tried, planned: m, network: p.renumbered()}
	starts, ends := make([]int, len(m.tasks)), make([]int, len(m.tasks))
	begun := make([]bool, len(m.tasks))
	var spells []spell
	for i := range p.nodes {
		task := p.same[p.nodes[i].task]
		if task < 0 {
			continue
		}
		if start := int(p.starts[i]); !begun[task] || start < starts[task] {
			begun[task], starts[task] = true, start
		}
		ends[task] = max(ends[task], int(p.ends[i]))
		spells = append(spells, p.spellsOf(i, task)...)
	}
	kept.lay(m, starts, ends, spells)
	return kept, nil
}

// spellsOf is when each person was on a node: from when they could come to its
// end, but not while they were away.
func (p *player) spellsOf(i, task int) []spell {
	n := &p.nodes[i]
	var spells []spell
	for k, m := range n.people {
		from, to := int(p.starts[i]), int(p.ends[i])
		if n.rest {
			from = int(p.arrivals[i][k])
		}
		for _, here := range p.calendar(n.task, m.person) {
			begin, end := max(from, here.From), min(to, here.To)
			if !p.model.tasks[task].Splittable {
				begin, end = from, to
			}
			if begin < end {
				spells = append(spells, spell{task, p.who[m.person], begin, end})
			}
			if !p.model.tasks[task].Splittable {
				break
			}
		}
	}
	return spells
}

// renumbered is the network in the numbers of the job at hand; nodes of tasks
// that are left out go, and what waited for them waits for what they waited for.
func (p *player) renumbered() *network {
	w := &network{parts: make([][]int, len(p.model.tasks)), hands: make([]float64, len(p.model.tasks))}
	for old, task := range p.same {
		if task >= 0 {
			w.hands[task] = p.hands[old]
		}
	}
	place := make([]int, len(p.nodes))
	instead := make([][]int, len(p.nodes)) // for a node that goes
	for i := range p.nodes {
		old := &p.nodes[i]
		var waits []int
		follow := func(before int) {
			if place[before] >= 0 {
				waits = append(waits, place[before])
			} else {
				waits = append(waits, instead[before]...)
			}
		}
		for _, before := range old.waits {
			follow(before)
		}
		task := p.same[old.task]
		if task < 0 {
			place[i], instead[i] = -1, waits
			continue
		}
		n := *old
		n.task, n.length, n.people = task, float64(old.length*p.scale[old.task]), nil
		n.from, n.end = int(p.starts[i]), int(p.ends[i])
		for _, m := range old.people {
			scale := p.scale[old.task]
			speed := m.speed
			if scale > 0 {
				speed /= scale
			}
			room := m.room
			if room >= 0 {
				room = place[room] // of the same task, so it stays
			}
			n.people = append(n.people, member{p.who[m.person], room, m.from, speed})
		}
		n.waits = waits
		place[i] = len(w.nodes)
		w.nodes = append(w.nodes, n)
		w.parts[task] = append(w.parts[task], place[i])
	}
	return w
}
