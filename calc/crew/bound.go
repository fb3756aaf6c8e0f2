package crew

// bound returns a cost that no schedule can beat. For each place, and for its musts and shoulds, it takes the later of
// two times: the longest chain of tasks in the fastest hands, and the work shared by everybody there without crowding
// or waiting.
func (m *model) bound() int {
	ends := make([]int, len(m.tasks))
	last := nothing()
	var work lasts
	for _, task := range m.order {
		t := &m.tasks[task]
		begin := m.earliest(task)
		for _, before := range m.before[0][task] {
			begin = max(begin, ends[before]+m.lag(before, task))
		}
		ends[task] = begin
		if m.work[task] > 0 {
			ends[task] = m.soonest(task, begin)
		}
		m.reach(&last, task, ends[task])
		for level := range Could + 1 - m.level[task] {
			work[t.Place][level] += m.work[task]
		}
	}
	for place := range places {
		for level := range last[place] {
			if at := &last[place][level]; *at > never {
				*at = max(*at, m.shared(place, work[place][level]))
			}
		}
	}
	return m.cost(&last)
}

// soonest returns when a task could end with as many hands as it has room for.
func (m *model) soonest(task, begin int) int {
	t := &m.tasks[task]
	practised := 0
	open := forever
	for person, cal := range m.cals[0][t.Place] {
		if cal == nil {
			continue
		}
		if m.job.People[person].Practised {
			practised++
		}
		open = min(open, max(begin, cal.at(begin).From))
	}
	practised = min(practised, t.Most)
	return open + minutesFor(m.work[task], m.speed[task].team(practised, t.Most-practised))
}

// shared returns when everybody at a place together could have done this much work: the first minute by which their
// presence adds up to it.
func (m *model) shared(place Place, work int) int {
	done := func(by int) bool {
		sum := 0
		for person, cal := range m.cals[0][place] {
			speed := 1000
			if !m.job.People[person].Practised {
				speed = m.fastestBeginner(place)
			}
			for _, i := range cal {
				if i.From < by {
					sum += (min(by, i.To) - max(i.From, m.job.Now)) * speed
				}
			}
			if sum >= work {
				return true
			}
		}
		return sum >= work
	}
	low, high := m.job.Now, m.job.Now+maxMinutes*maxTasks
	for low < high {
		if middle := low + (high-low)/2; done(middle) {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}

// fastestBeginner returns a beginner's highest speed at any task of a place.
func (m *model) fastestBeginner(place Place) int {
	best := 1
	for task := range m.tasks {
		if m.tasks[task].Place == place {
			best = max(best, m.speed[task].beginner)
		}
	}
	return best
}
