package crew

import (
	"cmp"
	"slices"

	"garlandry/calc/stable"
)

// schedule returns the best plan so far as a Schedule.
func (d *decoder) schedule(proven bool, tried int) *Schedule {
	s := &Schedule{Proven: proven, Tried: tried, network: d.buildNetwork(), planned: &d.model}
	s.lay(&d.model, d.bestAt[0], d.bestAt[1], append([]spell(nil), d.best...))
	return s
}

// lay fills in the slots from minutes.
func (s *Schedule) lay(m *model, starts, ends []int, spells []spell) {
	s.Finish = m.job.Now
	stable.Sort(spells, func(a, b spell) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.person, b.person))
	})
	s.Slots = make([]Slot, len(m.tasks))
	for task := range m.tasks {
		slot := &s.Slots[task]
		slot.Task, slot.Start, slot.End = m.tasks[task].Key, starts[task], ends[task]
		if m.tasks[task].Place != TakeDown {
			s.Finish = max(s.Finish, ends[task])
		}
	}
	late := make([]bool, len(m.job.People))
	teams := make([]uint64, len(m.tasks)) // the people on each task, one bit each, for at most maxPeople
	for i := range spells {
		sp := &spells[i]
		teams[sp.task] |= 1 << sp.person
		slot := &s.Slots[sp.task]
		slot.Spells = append(slot.Spells, Spell{m.job.People[sp.person].Key, sp.from, sp.to})
		if !m.there(sp) {
			late[sp.person] = true
		}
	}
	for person := range late {
		if late[person] {
			s.StaysOn = append(s.StaysOn, m.job.People[person].Key)
		}
	}
	for task := range s.Slots {
		s.explain(m, task, teams)
	}
}

// there reports whether a person is free, and their place open, for a whole spell.
func (m *model) there(s *spell) bool {
	for _, free := range intersect(always(m.job.People[s.person].Free), always(m.job.Windows[m.tasks[s.task].Place])) {
		if free.From <= s.from && s.to <= free.To {
			return true
		}
	}
	return false
}

// explain sets which tasks kept a task from beginning sooner: its predecessors, and those whose people or things it
// got, if they end when it begins.
func (s *Schedule) explain(m *model, task int, teams []uint64) {
	slot := &s.Slots[task]
	if slot.Start <= m.earliest(task) {
		return
	}
	justBefore := func(other int) bool { return s.Slots[other].End+m.lag(other, task) == slot.Start }
	for _, before := range m.before[0][task] {
		if justBefore(before) {
			slot.WaitedFor = append(slot.WaitedFor, s.Slots[before].Task)
		}
	}
	for other := range s.Slots {
		if other != task && justBefore(other) && (teams[other]&teams[task] != 0 || m.shares(other, task)) &&
			!slices.Contains(slot.WaitedFor, s.Slots[other].Task) {
			slot.WaitedFor = append(slot.WaitedFor, s.Slots[other].Task)
		}
	}
}

// shares reports whether two tasks need a common thing.
func (m *model) shares(first, then int) bool {
	for i := range m.needs[first] {
		for k := range m.needs[then] {
			if m.needs[first][i].thing == m.needs[then][k].thing {
				return true
			}
		}
	}
	return false
}
