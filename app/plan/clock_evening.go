package plan

import "garlandry/calc/crew"

const (
	// eveningSlack is how many times its planned length work at home gets before the evening of loading: what strays and
	// waits must find room. From memory, no source.
	eveningSlack = 1.4
	// mostLinger is how many minutes people stay on rather than leave them for another evening. From memory, no source.
	mostLinger = 20
)

// freshen leaves the latest evenings that the work at home fits into, so that balloons are fresh. An evening that has begun
// stays.
func (c *Clock) freshen() {
	minutes := 0.0
	for i := range c.job.Tasks {
		t, hands := &c.job.Tasks[i], 0.0
		for k := range c.job.People {
			p := &c.job.People[k]
			switch {
			case len(p.Only) > 0 && p.Only[0] != crew.Home:
			case p.Practised:
				hands++
			default:
				hands += 1 / max(1, t.Beginner)
			}
		}
		if hands > 0 && (t.Place == crew.Home || t.Place == crew.Load) {
			minutes += eveningSlack * t.Minutes / hands
		}
	}
	home := c.job.Windows[crew.Home]
	first := len(home)
	for first > 0 && (minutes > 0 || home[first-1].To > daysAhead*dayMinutes) { // the day itself is for what is left then
		first--
		if evening := home[first]; evening.From < daysAhead*dayMinutes {
			minutes -= float64(min(evening.To, daysAhead*dayMinutes) - evening.From)
		}
	}
	for first > 0 && home[first-1].To > c.Now && home[first-1].From <= c.Now {
		first--
	}
	c.job.Windows[crew.Home] = home[min(first, len(home)):]
}

// linger lets people stay a little longer on an evening where the plan would leave a few minutes of a card for the next.
func (c *Clock) linger(o *crew.Options) {
	lingered := false
	for range 8 { // whoever stays on may begin another card
		home := append([]crew.Interval(nil), c.job.Windows[crew.Home]...)
		longer := false
		for i := 0; i+1 < len(home); i++ {
			end := home[i].To
			for k := range c.schedule.Slots {
				s := &c.schedule.Slots[k]
				if over := s.End - home[i+1].From; s.Start < home[i+1].From && 0 <= over && over <= mostLinger && c.job.Tasks[k].Place == crew.Home {
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
	if lingered {
		c.forecast = o.Odds(c.schedule)
	}
}
