package crew

// leastSpell is the shortest time that a person is assigned to a shared task, unless it ends sooner.
const leastSpell = 5

// share returns when a task that may be interrupted ends with at most the given number of hands. Free people join,
// people needed elsewhere leave, and no work is done while there are too few. If keep is set, it records the spells.
func (d *decoder) share(side, task, most int, slowFirst, keep bool, limit int) (end int) {
	left, begun := d.work[task], false
	first := len(d.spells)
	d.onIt = d.onIt[:0]
	for now := d.ready[task]; left > 0; now = end {
		if now >= limit {
			return limit
		}
		end = forever
		room := d.room(task, most, now, &end)
		practised := d.join(side, task, now, room, slowFirst, left, &end)
		hands := len(d.chosen)
		d.onIt = append(d.onIt[:0], d.chosen...)
		if hands < d.tasks[task].Least {
			d.onIt = d.onIt[:0]
			continue
		}
		speed := d.speed[task].team(practised, hands-practised)
		end = min(end, now+minutesFor(left, speed))
		left -= speed * (end - now)
		if !keep {
			continue
		}
		if !begun {
			begun, d.starts[task] = true, now
		}
		for _, person := range d.chosen {
			d.lengthen(task, first, person, now, end)
		}
		d.lend(task, hands, now, end)
	}
	if keep {
		d.ends[task] = end
		d.bookAll(first)
	}
	return end
}

// lengthen extends a person's spell on the task or begins another.
func (d *decoder) lengthen(task, first, person, from, to int) {
	for i := len(d.spells) - 1; i >= first; i-- {
		if s := &d.spells[i]; s.person == person && s.to == from {
			s.to = to
			return
		}
	}
	d.spells = append(d.spells, spell{task, person, from, to})
}

// room returns how many hands the available things allow now. It lowers next if that changes sooner.
func (d *decoder) room(task, most, now int, next *int) int {
	for i := range d.needs[task] {
		need := &d.needs[task][i]
		free := d.job.Things[need.thing].Count
		lent := d.lent[need.thing]
		for i := range lent {
			l := &lent[i]
			switch {
			case l.from > now:
				*next = min(*next, l.from)
			case l.to > now:
				*next = min(*next, l.to)
				free -= l.units
			}
		}
		switch {
		case need.serves > 0:
			most = min(most, free/need.units*need.serves)
		case free < need.units:
			most = 0
		}
	}
	return most
}

// join chooses who works on the task now: first those who took it, without whom nobody begins it, then those who are on
// it, then by taste, then those who can stay longest. It returns how many of them are practised, and lowers next if
// somebody must leave, or might join, sooner.
func (d *decoder) join(side, task, now, room int, slowFirst bool, left int, next *int) (practised int) {
	place := d.tasks[task].Place
	d.trial, d.chosen = d.trial[:0], d.chosen[:0]
	soon := forever
	alone := now + minutesFor(left, d.speed[task].team(min(1, room), 0))
	for person, cal := range d.cals[side][place] {
		stay := 0
		if cal != nil && d.may(task, person) {
			until, change := d.free(cal, person, now)
			if stay = until - now; stay > 0 && stay < leastSpell && until < alone && !d.took(task, person) {
				stay = 0
			}
			if stay == 0 {
				soon = min(soon, change)
			}
		}
		d.trial = append(d.trial, stay)
	}
	for len(d.chosen) < room {
		best, most := -1, -1
		for person, stay := range d.trial {
			if stay > 0 {
				if value := d.value(task, person, stay, slowFirst); value > most {
					best, most = person, value
				}
			}
		}
		if best < 0 {
			break
		}
		*next = min(*next, now+d.trial[best])
		d.trial[best] = 0
		d.chosen = append(d.chosen, best)
		if d.job.People[best].Practised {
			practised++
		}
	}
	pinned := len(d.taken[task]) > 0 && left == d.work[task]
	if pinned && len(d.chosen) > 0 && !d.took(task, d.chosen[0]) {
		d.chosen = d.chosen[:0]
	}
	if len(d.chosen) < room || pinned {
		*next = min(*next, soon)
	}
	return practised
}

// value rates how much a person is wanted on a shared task.
func (d *decoder) value(task, person, stay int, slowFirst bool) int {
	value := min(stay, forever)
	if d.job.People[person].Practised != slowFirst {
		value += 2 * forever
	}
	for _, on := range d.onIt {
		if on == person {
			value += 4 * forever
		}
	}
	if d.took(task, person) {
		value += 8 * forever
	}
	return value
}
