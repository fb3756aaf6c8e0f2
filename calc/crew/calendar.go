package crew

import "slices"

// forever is later than any relevant minute.
const forever = 1 << 40

// calendar holds when a person can be at a place: rising intervals that do not touch, the last one without end.
type calendar []Interval

// at returns the interval that contains a minute, or the next one.
func (c calendar) at(minute int) Interval {
	for _, i := range c {
		if minute < i.To {
			return i
		}
	}
	return Interval{forever, forever}
}

// always replaces an empty list of times by all times.
func always(times []Interval) []Interval {
	if len(times) == 0 {
		return []Interval{{-forever, forever}}
	}
	return times
}

// intersect returns the times that are in both lists.
func intersect(a, b []Interval) []Interval {
	var both []Interval
	for _, x := range a {
		for _, y := range b {
			if i := (Interval{max(x.From, y.From), min(x.To, y.To)}); i.From < i.To {
				both = append(both, i)
			}
		}
	}
	return both
}

// calendars returns the calendars of a place, one for each person, nil for those who do not work there. The last minute
// is when the place's last window closes or the doors open. Unfinished work goes on after it, late, with those who are
// still there, or with everyone if they are too few for its tasks. So a schedule always has an end.
func (j *Job) calendars(place Place) (cals []calendar, last int) {
	windows := j.Windows[place]
	if place != TakeDown {
		last = j.Doors
	}
	if n := len(windows); n > 0 && (place == TakeDown || windows[n-1].To < last || last <= j.Now) {
		last = windows[n-1].To
	}
	last = max(last, j.Now)
	cals = make([]calendar, len(j.People))
	for i := range cals {
		if p := &j.People[i]; p.goes(place) && len(windows) == 0 && place == TakeDown && len(p.Free) > 0 {
			last = max(last, p.Free[len(p.Free)-1].To)
		}
	}
	stay := 0
	for i := range cals {
		if p := &j.People[i]; p.goes(place) {
			cals[i] = calendar(intersect(intersect(always(p.Free), always(windows)), []Interval{{j.Now, forever}}))
			if cals[i].has(last) {
				stay++
			}
		}
	}
	for i := range j.Tasks {
		if t := &j.Tasks[i]; t.Place == place && max(1, t.Least) > j.staying(t, cals, last, stay) {
			stay = 0
		}
	}
	for i := range cals {
		if j.People[i].goes(place) {
			from := last
			if stay > 0 && !cals[i].has(last) {
				from += awayLonger
			}
			cals[i] = cals[i].stayOn(from)
		}
	}
	return cals, last
}

// staying returns how many of the people who may do a task are there at the last minute of its place. Stay is the
// number for tasks that everybody may do.
func (j *Job) staying(t *Task, cals []calendar, last, stay int) int {
	if len(t.By) == 0 {
		return stay
	}
	stay = 0
	for i := range cals {
		if cals[i].has(last) && slices.Contains(t.By, j.People[i].Key) {
			stay++
		}
	}
	return stay
}

// awayLonger is the number of minutes, a week, after which people who had left before the last minute are back, so that
// nothing is planned for them.
const awayLonger = 7 * 24 * 60

// has reports whether the calendar contains a minute, or a time that ends at it.
func (c calendar) has(minute int) bool {
	for _, i := range c {
		if i.From <= minute && minute <= i.To {
			return true
		}
	}
	return false
}

func (p *Person) goes(place Place) bool {
	for _, only := range p.Only {
		if only == place {
			return true
		}
	}
	return len(p.Only) == 0
}

// stayOn returns the calendar of a person who stays from a minute on.
func (c calendar) stayOn(from int) calendar {
	n := len(c)
	for n > 0 && c[n-1].From >= from {
		n--
	}
	if c = c[:n]; n > 0 && c[n-1].To >= from {
		c[n-1].To = forever
		return c
	}
	return append(c, Interval{from, forever})
}

// mirrored returns the calendar with time reversed: minute t becomes -t.
func (c calendar) mirrored() calendar {
	back := make(calendar, 0, len(c))
	for i := len(c) - 1; i >= 0; i-- {
		back = append(back, Interval{-c[i].To, -c[i].From})
	}
	return back.stayOn(-c[0].From)
}

// advance returns the minute at which the given minutes of presence have passed, or at which the person leaves and
// would be back only when everyone stays on. It also returns the remaining minutes.
func (c calendar) advance(from, minutes, last float64) (end, left float64) {
	end = from
	for _, i := range c {
		begin := later(from, float64(i.From))
		if begin >= float64(i.To) {
			continue
		}
		if begin > from && begin >= last {
			break
		}
		if end = float64(i.To); minutes <= end-begin {
			return begin + minutes, 0
		}
		minutes -= end - begin
	}
	return end, minutes
}

// room returns the first minute from which this many minutes lie in one interval.
func (c calendar) room(from, minutes float64) float64 {
	for _, i := range c {
		begin := later(from, float64(i.From))
		if begin+minutes <= float64(i.To) {
			return begin
		}
	}
	return forever
}
