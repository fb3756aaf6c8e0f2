package forecast

import "garlandry/calc/crew"

const (
	// eveningSlack is how many times its planned length work at home gets before the evening of loading: what strays and
	// waits must find room. From memory, no source.
	eveningSlack = 1.4
	// mostLinger is how many minutes people stay on rather than leave them for another evening. From memory, no source.
	mostLinger = 20
)

// freshen keeps what goes soft for the latest evenings that it fits into with the loading; all else at home is done
// before. An evening that has begun stays.
func (c *Forecast) freshen() {
	need, fast := 0.0, 0.0 // minutes of practised hands, and how many of them come to one of a beginner's
	for i := range c.job.Tasks {
		if t := &c.job.Tasks[i]; t.Place == crew.Load || softens(t) {
			need += float64(eveningSlack * t.Minutes)
			fast += float64(eveningSlack*t.Minutes) / max(1, t.Beginner)
		}
	}
	if need > 0 {
		fast /= need
	}
	home := c.job.Windows[crew.Home]
	first := len(home)
	for first > 0 && home[first-1].From >= c.soft && (need > 0 || home[first-1].To > theDay) { // the day itself is for what is left then
		first--
		need -= c.handsMinutes(home[first], fast)
	}
	for first > 0 && home[first-1].From >= c.soft && home[first-1].To > c.Now && home[first-1].From <= c.Now {
		first--
	}
	from := c.soft
	if first < len(home) {
		from = max(from, home[first].From)
	}
	for i := range c.job.Tasks {
		if t := &c.job.Tasks[i]; first > 0 && softens(t) {
			t.From = from
		}
	}
}

// softens reports whether what a task makes at home goes soft: filled balloons, single and joined.
func softens(t *crew.Task) bool {
	return t.Place == crew.Home && (t.Kind == "fill" || t.Kind == "join")
}

// handsMinutes is the minutes of practised hands that there are at home in a time before the day.
func (c *Forecast) handsMinutes(open crew.Interval, beginner float64) (sum float64) {
	for i := range c.job.People {
		p := &c.job.People[i]
		if len(p.Only) > 0 && p.Only[0] != crew.Home {
			continue
		}
		minutes, times := 0, p.Free
		if times == nil {
			times = c.job.Windows[crew.Home]
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

// linger lets people stay a little longer on an evening where the plan would leave a few minutes of a card for the
// next. It reports whether that changes the plan, so that its odds are to be told anew.
func (c *Forecast) linger() (lingered bool) {
	for range 8 { // whoever stays on may begin another card
		home := append([]crew.Interval(nil), c.job.Windows[crew.Home]...)
		longer := false
		for i := 0; i+1 < len(home); i++ {
			end := home[i].To
			for k := range c.schedule.Slots {
				s := &c.schedule.Slots[k]
				if over := s.End - home[i+1].From; s.Start < home[i+1].From && 0 <= over && over <= mostLinger &&
					c.job.Tasks[k].Place == crew.Home {
					longer = true
					home[i].To = max(home[i].To, min(end+max(1, over), home[i+1].From))
				}
			}
		}
		if !longer {
			break
		}
		c.job.Windows[crew.Home] = home
		same, err := crew.Carry(c.schedule, c.job)
		if err != nil {
			break
		}
		c.schedule, lingered = same, true
	}
	return lingered
}
