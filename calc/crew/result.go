package crew

import "sort"

// schedule writes out the best plan so far.
func (d *decoder) schedule(proven bool, tried int) Schedule {
	s := Schedule{Proven: proven, Tried: tried, network: d.weave(), planned: d.model}
	spells := append([]spell(nil), d.best...)
	s.lay(d.model, d.bestAt[0], d.bestAt[1], spells)
	return s
}

// lay fills the slots from minutes.
func (s *Schedule) lay(m *model, starts, ends []int, spells []spell) {
	s.Finish = m.job.Now
	sort.SliceStable(spells, func(i, j int) bool {
		a, b := spells[i], spells[j]
		return a.from < b.from || a.from == b.from && a.person < b.person
	})
	s.Slots = make([]Slot, len(m.tasks))
	for task := range m.tasks {
		s.Slots[task] = Slot{Task: m.tasks[task].Key, Start: starts[task], End: ends[task]}
		if m.tasks[task].Place != TakeDown {
			s.Finish = max(s.Finish, ends[task])
		}
	}
	late := make([]bool, len(m.job.People))
	for _, sp := range spells {
		slot := &s.Slots[sp.task]
		slot.Spells = append(slot.Spells, Spell{m.job.People[sp.person].Key, sp.from, sp.to})
		late[sp.person] = late[sp.person] || !m.there(sp)
	}
	for person := range late {
		if late[person] {
			s.StaysOn = append(s.StaysOn, m.job.People[person].Key)
		}
	}
	s.explain(m)
}

// there tells whether a person is free, and their place open, for a whole spell.
func (m *model) there(s spell) bool {
	for _, free := range intersect(always(m.job.People[s.person].Free), always(m.job.Windows[m.tasks[s.task].Place])) {
		if free.From <= s.from && s.to <= free.To {
			return true
		}
	}
	return false
}

// explain says for each task which others kept it from beginning sooner: those
// that it comes after, and those that its people or things came from, if they end
// when it begins.
func (s *Schedule) explain(m *model) {
	for task := range s.Slots {
		seen := map[int]bool{task: true}
		wait := func(other int) {
			if !seen[other] && s.Slots[other].End+m.lag(other, task) == s.Slots[task].Start {
				seen[other] = true
				s.Slots[task].WaitedFor = append(s.Slots[task].WaitedFor, m.tasks[other].Key)
			}
		}
		if s.Slots[task].Start <= m.earliest(task) {
			continue
		}
		for _, before := range m.before[0][task] {
			wait(before)
		}
		for other := range s.Slots {
			if m.shares(task, other, s) {
				wait(other)
			}
		}
	}
}

// shares tells whether two tasks have a thing in common, or a person who works on both.
func (m *model) shares(a, b int, s *Schedule) bool {
	for _, x := range m.needs[a] {
		for _, y := range m.needs[b] {
			if x.thing == y.thing {
				return true
			}
		}
	}
	for _, x := range s.Slots[a].Spells {
		for _, y := range s.Slots[b].Spells {
			if x.Person == y.Person {
				return true
			}
		}
	}
	return false
}
