package forecast

import "garlandry/calc/crew"

const (
	// eveningSlack multiplies the planned minutes of work at home, as room for delays. From memory, no source.
	eveningSlack = 1.4
	// mostLinger is how many minutes people stay longer to finish a card. From memory, no source.
	mostLinger = 20
)

// freshen moves work that goes soft to the latest evenings that hold it and the loading. Other work at home comes
// before. An evening that has begun stays.
func (f *Forecast) freshen() {
	need, fast := 0.0, 0.0 // practised minutes, and practised minutes per beginner's minute
	for i := range f.job.Tasks {
		if t := &f.job.Tasks[i]; t.Place == crew.Load || softens(t) {
			need += float64(eveningSlack * t.Minutes)
			fast += float64(eveningSlack*t.Minutes) / max(1, t.Beginner)
		}
	}
	if need > 0 {
		fast /= need
	}
	home := f.job.Windows[crew.Home]
	first := len(home)
	for first > 0 && home[first-1].From >= f.soft && (need > 0 || home[first-1].To > theDay) {
		first--
		need -= f.handsMinutes(home[first], fast)
	}
	for first > 0 && home[first-1].From >= f.soft && home[first-1].To > f.Now && home[first-1].From <= f.Now {
		first--
	}
	from := f.soft
	if first < len(home) {
		from = max(from, home[first].From)
	}
	for i := range f.job.Tasks {
		if t := &f.job.Tasks[i]; first > 0 && softens(t) {
			t.From = from
		}
	}
}

// softens reports whether the result of a task at home goes soft: filled balloons, single and joined.
func softens(t *crew.Task) bool {
	return t.Place == crew.Home && (t.Kind == "fill" || t.Kind == "join")
}

// handsMinutes returns how many practised minutes people have at home in an interval before the day.
func (f *Forecast) handsMinutes(open crew.Interval, beginner float64) (sum float64) {
	for i := range f.job.People {
		p := &f.job.People[i]
		if len(p.Only) > 0 && p.Only[0] != crew.Home {
			continue
		}
		minutes, times := 0, p.Free
		if times == nil {
			times = f.job.Windows[crew.Home]
		}
		for _, free := range times {
			minutes += max(0, min(free.To, open.To, theDay)-max(free.From, open.From))
		}
		if p.Practised {
			sum += float64(minutes)
		} else {
			sum += float64(float64(minutes) * beginner)
		}
	}
	return sum
}

// linger lets people stay longer on an evening if only a few minutes of a card are left. It reports whether the plan
// changed and needs new odds.
func (f *Forecast) linger() (lingered bool) {
	for range 8 { // who stays longer may begin another card
		home := append([]crew.Interval(nil), f.job.Windows[crew.Home]...)
		longer := false
		for i := 0; i+1 < len(home); i++ {
			end := home[i].To
			for k := range f.schedule.Slots {
				s := &f.schedule.Slots[k]
				if over := s.End - home[i+1].From; s.Start < home[i+1].From && 0 <= over && over <= mostLinger &&
					f.job.Tasks[k].Place == crew.Home {
					longer = true
					home[i].To = max(home[i].To, min(end+max(1, over), home[i+1].From))
				}
			}
		}
		if !longer {
			break
		}
		f.job.Windows[crew.Home] = home
		same, err := crew.Carry(f.schedule, f.job)
		if err != nil {
			break
		}
		f.schedule, lingered = same, true
	}
	return lingered
}
