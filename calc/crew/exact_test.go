package crew

// Prove searches for the best of all schedules by branch and bound, within the given number of nodes, starting from the
// best one so far. It is the precedence tree of J. H. Patterson, R. Słowiński, F. B. Talbot and J. Węglarz ("An
// algorithm for a general class of precedence and resource constrained scheduling problems", 1989) with teams as modes.
// It adds tasks in the order of their starts, each with every team that its hands allow, as early as possible. The
// schedule is Proven once everything has been tried. Jobs with a splittable task are left unproven, because there are
// too many ways to share it.
func (s *search) Prove(nodes int) Schedule {
	best := s.Improve(1)
	if best.Proven || s.genetic == nil || !s.decoder.branches(nodes) {
		return best
	}
	return *s.decoder.schedule(true, best.Tried)
}

// tree is the state of the branch and bound, in order of starts.
type tree struct {
	*decoder
	classes [][]int // interchangeable people
	fastest []int   // shortest time of each task
	until   []int   // when each person is free again
	done    []bool
	from    []int
	to      []int
	team    [][]int
	left    int
	nodes   int
	guess   []int
}

// branches tries every schedule that may beat the best one. It returns false if the nodes run out or a task is
// splittable.
func (d *decoder) branches(nodes int) bool {
	n := len(d.tasks)
	t := &tree{decoder: d, nodes: nodes, done: make([]bool, n), from: make([]int, n), to: make([]int, n),
		team: make([][]int, n), guess: make([]int, n), until: make([]int, len(d.job.People)), left: n}
	for task := range d.tasks {
		if d.tasks[task].Splittable && d.work[task] > 0 {
			return false
		}
		hands := d.hands[d.tasks[task].Place]
		practised := 0
		for i, cal := range d.cals[0][d.tasks[task].Place] {
			if cal != nil && d.job.People[i].Practised {
				practised++
			}
		}
		practised = min(practised, d.tasks[task].Most)
		t.fastest = append(t.fastest,
			minutesFor(d.work[task], d.speed[task].team(practised, min(hands, d.tasks[task].Most)-practised)))
	}
	for i := range t.until {
		t.until[i] = d.job.Now
	}
	t.classes = d.alike()
	t.branch(d.job.Now)
	return t.nodes > 0
}

// alike groups people who are equally practised, have the same calendars and took no task.
func (d *decoder) alike() [][]int {
	var classes [][]int
next:
	for i := range d.job.People {
		for k, class := range classes {
			if d.twins(i, class[0]) {
				classes[k] = append(class, i)
				continue next
			}
		}
		classes = append(classes, []int{i})
	}
	return classes
}

func (d *decoder) twins(a, b int) bool {
	if d.job.People[a].Practised != d.job.People[b].Practised {
		return false
	}
	for task := range d.tasks {
		if d.took(task, a) || d.took(task, b) {
			return false
		}
	}
	for place := range places {
		x, y := d.cals[0][place][a], d.cals[0][place][b]
		if (x == nil) != (y == nil) || len(x) != len(y) {
			return false
		}
		for i := range x {
			if x[i] != y[i] {
				return false
			}
		}
	}
	return true
}

// branch adds every task that may be next. None may begin before the last one did.
func (t *tree) branch(now int) {
	if t.nodes--; t.nodes <= 0 {
		return
	}
	if t.left == 0 {
		t.keep()
		return
	}
	if t.hopeless(now) {
		return
	}
	for task := range t.tasks {
		if t.done[task] {
			continue
		}
		ready, waits := max(now, t.earliest(task)), false
		for _, before := range t.before[0][task] {
			waits = waits || !t.done[before]
			ready = max(ready, t.to[before]+t.lag(before, task))
		}
		if !waits {
			t.add(task, ready)
		}
	}
}

// add tries a task with every team.
func (t *tree) add(task, ready int) {
	if t.work[task] == 0 {
		t.enter(task, nil, ready, ready)
		return
	}
	counts := make([]int, len(t.classes))
	t.teams(task, ready, 0, 0, counts)
}

// teams enumerates how many of each class take part.
func (t *tree) teams(task, ready, class, hands int, counts []int) {
	if t.nodes <= 0 {
		return
	}
	if class == len(counts) {
		for at, class := range t.classes {
			if counts[at] == 0 && t.took(task, class[0]) {
				return
			}
		}
		if hands >= t.tasks[task].Least {
			t.begin(task, ready, counts)
		}
		return
	}
	most := 0
	if t.cals[0][t.tasks[task].Place][t.classes[class][0]] != nil {
		most = min(len(t.classes[class]), t.tasks[task].Most-hands)
	}
	for k := most; k >= 0; k-- {
		counts[class] = k
		t.teams(task, ready, class+1, hands+k, counts)
	}
	counts[class] = 0
}

// begin starts a task with a team as soon as the team and its things are available.
func (t *tree) begin(task, ready int, counts []int) {
	practised, hands := 0, 0
	for class, k := range counts {
		hands += k
		if t.job.People[t.classes[class][0]].Practised {
			practised += k
		}
	}
	minutes := minutesFor(t.work[task], t.speed[task].team(practised, hands-practised))
	var team []int
	start := ready
	for moved := true; moved; {
		moved = false
		team = team[:0]
		for class, k := range counts {
			if k == 0 {
				continue
			}
			at := t.together(t.classes[class], k, task, start, minutes, &team)
			if at > start {
				start, moved = at, true
				break
			}
		}
		if at := t.lentUntil(task, hands, start); !moved && at > start {
			start, moved = at, true
		}
	}
	t.enter(task, team, start, start+minutes)
}

// together returns the first minute from which k people of a class are free for the given time, and adds them to the
// team.
func (t *tree) together(class []int, k, task, start, minutes int, team *[]int) int {
	cal := t.cals[0][t.tasks[task].Place][class[0]]
	if t.took(task, class[0]) {
		minutes = 1 // then they stay on
	}
	for {
		free, next := 0, forever
		for _, person := range class {
			if t.until[person] <= start {
				free++
			} else {
				next = min(next, t.until[person])
			}
		}
		at := int(cal.room(float64(start), float64(minutes)))
		if free >= k && at == start {
			for _, person := range class {
				if t.until[person] <= start && k > 0 {
					*team = append(*team, person)
					k--
				}
			}
			return start
		}
		if free < k {
			start = next
		} else {
			start = at
		}
	}
}

// lentUntil returns now if the things are available, else when the first of those in use comes back.
func (t *tree) lentUntil(task, hands, now int) int {
	for _, need := range t.needs[task] {
		free, next := t.job.Things[need.thing].Count-need.unitsFor(hands), forever
		for other, done := range t.done {
			if !done || t.to[other] <= now {
				continue
			}
			for _, held := range t.needs[other] {
				if held.thing == need.thing {
					free -= held.unitsFor(max(1, len(t.team[other])))
					next = min(next, t.to[other])
				}
			}
		}
		if free < 0 {
			return next
		}
	}
	return now
}

// enter adds a task, continues the search, and removes the task again.
func (t *tree) enter(task int, team []int, start, end int) {
	kept := append([]int(nil), team...)
	before := make([]int, len(kept))
	for i, person := range kept {
		before[i], t.until[person] = t.until[person], end
	}
	t.done[task], t.from[task], t.to[task], t.team[task] = true, start, end, kept
	t.left--
	t.branch(start)
	t.left++
	t.done[task], t.team[task] = false, nil
	for i, person := range kept {
		t.until[person] = before[i]
	}
}

// keep records a schedule that is better than the best.
func (t *tree) keep() {
	copy(t.starts, t.from)
	copy(t.ends, t.to)
	_, last := t.span()
	cost := t.cost(&last)
	if cost >= t.least {
		return
	}
	t.least = cost
	copy(t.bestAt[0], t.from)
	copy(t.bestAt[1], t.to)
	t.best = t.best[:0]
	for task, team := range t.team {
		for _, person := range team {
			t.best = append(t.best, spell{task, person, t.from[task], t.to[task]})
		}
	}
}

// hopeless reports whether no continuation can beat the best, judged by what each remaining task must wait for, and by
// the remaining work of a place and of a thing.
func (t *tree) hopeless(now int) bool {
	var work [places]int
	last := nothing()
	for _, task := range t.model.order {
		place := t.tasks[task].Place
		if !t.done[task] {
			begin := max(now, t.earliest(task))
			for _, before := range t.before[0][task] {
				begin = max(begin, t.guess[before]+t.lag(before, task))
			}
			t.guess[task] = begin + t.fastest[task]
			work[place] += t.work[task]
		} else {
			t.guess[task] = t.to[task]
		}
		t.reach(&last, task, t.guess[task])
	}
	for place := range places {
		if at := &last[place][0]; *at > never {
			*at = max(*at, t.poured(place, work[place], now), t.queued(place, now))
		}
	}
	return t.cost(&last) >= t.least
}

// poured returns when all people of a place could have done the work, each from when they are free.
func (t *tree) poured(place Place, work, now int) int {
	if work == 0 {
		return now
	}
	by := now
	for {
		speed, next := 0, forever
		for person, cal := range t.cals[0][place] {
			if cal == nil {
				continue
			}
			if free := max(now, t.until[person]); free > by {
				next = min(next, free)
			} else if t.job.People[person].Practised {
				speed += 1000
			} else {
				speed += t.fastestBeginner(place)
			}
		}
		if next == forever || speed*(next-by) >= work {
			return by + minutesFor(work, max(1, speed))
		}
		work -= speed * (next - by)
		by = next
	}
}

// queued returns when the tasks of a place that need the same thing could be done one after the other, as many at a
// time as there are units.
func (t *tree) queued(place Place, now int) int {
	latest := now
	for thing := range t.job.Things {
		sum, count := 0, t.job.Things[thing].Count
		for task := range t.tasks {
			if t.done[task] || t.tasks[task].Place != place {
				continue
			}
			for _, need := range t.needs[task] {
				if need.thing == thing {
					sum += need.units * t.fastest[task]
				}
			}
		}
		latest = max(latest, now+(sum+count-1)/max(1, count))
	}
	return latest
}
