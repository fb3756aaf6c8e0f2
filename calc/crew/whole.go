package crew

// whole finds the first end of an uninterrupted task with the given number of hands, and leaves the team in chosen. A
// person who must leave before the end is not in the team.
func (d *decoder) whole(side, task, hands int, slowFirst bool, limit int) (start, end int) {
	t := &d.tasks[task]
	for now := d.ready[task]; now < limit; {
		next := forever
		minutes, found := d.teamAt(side, t.Place, task, now, hands, slowFirst, &next)
		if found {
			if blocked := d.blocked(task, hands, now, now+minutes); blocked > now {
				next = blocked
			} else {
				return now, now + minutes
			}
		}
		now = next
	}
	return limit, limit
}

// teamAt picks a team that is free from now until the task is done. It sets next to the first later minute at which
// somebody's availability changes.
func (d *decoder) teamAt(
	side int,
	place Place,
	task, now, hands int,
	slowFirst bool,
	next *int,
) (minutes int, found bool) {
	speed := &d.speed[task]
	free, practised := 0, 0
	d.trial = d.trial[:0]
	for person, cal := range d.cals[side][place] {
		if cal == nil || !d.may(task, person) {
			d.trial = append(d.trial, 0)
			continue
		}
		until, change := d.freeFor(task, side, cal, person, now)
		*next = min(*next, change)
		d.trial = append(d.trial, until-now)
		if until > now {
			free++
			if d.job.People[person].Practised {
				practised++
			}
		}
	}
	if free < hands {
		return 0, false
	}
	for k := range hands + 1 {
		p := hands - k
		if slowFirst {
			p = k
		}
		if p > practised || hands-p > free-practised {
			continue
		}
		minutes = minutesFor(d.work[task], speed.team(p, hands-p))
		if d.pick(task, minutes, p, hands-p) {
			return minutes, true
		}
	}
	return 0, false
}

// pick fills chosen with people who are free for the task's time: those who took the task, then those whose free time
// ends soonest. trial holds how long each is free.
func (d *decoder) pick(task, minutes, practised, beginners int) bool {
	d.chosen = d.chosen[:0]
	for practised+beginners > 0 {
		best, takers := -1, d.taken[task]
		pinned := len(d.chosen) < len(takers)
		for person, stay := range d.trial {
			if stay < minutes || stay <= 0 || best >= 0 && stay >= d.trial[best] || pinned && person != takers[len(d.chosen)] {
				continue
			}
			if d.job.People[person].Practised && practised > 0 || !d.job.People[person].Practised && beginners > 0 {
				best = person
			}
		}
		if best < 0 {
			break
		}
		if d.job.People[best].Practised {
			practised--
		} else {
			beginners--
		}
		d.chosen = append(d.chosen, best)
		d.trial[best] = -d.trial[best]
	}
	for _, person := range d.chosen {
		d.trial[person] = -d.trial[person]
	}
	return practised+beginners == 0
}

// freeFor is free, except that people who took the task stay on for it once they are there.
func (d *decoder) freeFor(task, side int, cal calendar, person, now int) (until, change int) {
	if here := cal.at(now); side == 0 && here.From <= now && d.took(task, person) {
		cal = calendar{{here.From, forever}}
	}
	return d.free(cal, person, now)
}

// free returns until when a person is free if they are free now, else now, and when that changes next.
func (d *decoder) free(cal calendar, person, now int) (until, change int) {
	here := cal.at(now)
	if here.From > now {
		return now, here.From
	}
	until = here.To
	list := d.busy[person]
	for i := range list {
		busy := &list[i]
		if busy.To <= now {
			continue
		}
		if busy.From <= now {
			return now, busy.To
		}
		until = min(until, busy.From)
		break
	}
	return until, until
}

// blocked returns now if all things that a task needs are available until an end, else the first later minute at which
// one of those that are lent comes back.
func (d *decoder) blocked(task, hands, now, end int) int {
	for i := range d.needs[task] {
		need := &d.needs[task][i]
		there := d.job.Things[need.thing].Count - need.unitsFor(hands)
		lent := d.lent[need.thing]
		for at := range lent {
			moment := max(now, lent[at].from)
			if moment >= end || lent[at].to <= now {
				continue
			}
			if back, in := inUse(lent, moment); in > there {
				return back
			}
		}
	}
	return now
}

// inUse returns how many units are lent at a moment, and when the first comes back.
func inUse(lent []loan, moment int) (back, units int) {
	back = forever
	for i := range lent {
		if l := &lent[i]; l.from <= moment && moment < l.to {
			units += l.units
			back = min(back, l.to)
		}
	}
	return back, units
}
