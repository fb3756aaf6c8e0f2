package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/calc/crew"
)

const theDay = daysAhead * dayMinutes // when the day of the job begins, in minutes from the origin

// crew is the people: those of the list, and whoever runs the job where the list leaves a place empty.
func (c *Forecast) crew(j *job.Job) {
	atHome := false
	for i := range j.Crew {
		m := &j.Crew[i]
		free, home := c.free(m)
		atHome = atHome || home
		c.person(m.ID, m.Name, m.Skill == string(figures.Practised), free, home)
	}
	if !atHome {
		c.person("", "Whoever runs the job", true, nil, true)
		if len(j.Crew) > 0 {
			c.job.People[len(c.job.People)-1].Only = []crew.Place{crew.Home, crew.Load}
		}
	}
}

func (c *Forecast) person(key, name string, skilled bool, free []crew.Interval, home bool) {
	p := crew.Person{Key: key, Practised: skilled, Free: free}
	if !home {
		p.Only = []crew.Place{crew.Site, crew.TakeDown}
	}
	c.job.People = append(c.job.People, p)
	c.People = append(c.People, Person{key, name, skilled})
}

// minute is a moment in minutes of the clock, within its bounds.
func (c *Forecast) minute(m job.Moment) (minute int, known bool) {
	at, known := m.Time()
	return int(min(max(at.Unix()/60-c.Origin, 0), faraway)), known
}

// free is when one of the crew is there, nil for always, and whether they work at home as well. From and Until are
// about the day; those who help at home do so on the usual evenings before it, or at the times of their own before it.
func (c *Forecast) free(m *job.Member) (free []crew.Interval, home bool) {
	from, late := c.minute(m.From)
	to, early := c.minute(m.To)
	own := false
	free = c.again(m)
	for i := range free {
		own = own || free[i].From < theDay
	}
	home = m.Home || own
	if !late && !early && free == nil && !(home && c.usual != nil) {
		return nil, home
	}
	if !late {
		from = theDay
	}
	if !early {
		to = faraway
	}
	if from = min(from, faraway-1); to > from {
		free = append(free, crew.Interval{From: from, To: to})
	}
	if before := min(from, theDay); home && !own && c.usual == nil {
		free = append(free, crew.Interval{From: 0, To: before})
	} else if home && !own {
		for _, u := range c.usual {
			free = append(free, crew.Interval{From: u.From, To: min(u.To, before)})
		}
	}
	if free = merged(free); free == nil { // an empty list would mean always
		free = []crew.Interval{{From: faraway - 1, To: faraway}}
	}
	return free, home
}

// merged puts times in order, those that touch or overlap as one.
func merged(list []crew.Interval) []crew.Interval {
	var all []crew.Interval
	list = append(all, list...)
	for len(list) > 0 {
		first := 0
		for i := range list {
			if list[i].From < list[first].From {
				first = i
			}
		}
		next := list[first]
		list[first] = list[0]
		list = list[1:]
		if last := len(all) - 1; last >= 0 && next.From <= all[last].To {
			all[last].To = max(all[last].To, next.To)
		} else if next.From < next.To {
			all = append(all, next)
		}
	}
	return all
}

// windows are the evenings at home, loading, the time on site and the take-down. The balloons are got together on an
// evening before those on which they are filled.
func (c *Forecast) windows(j *job.Job, p *plan.Plan) {
	c.Drive = int(p.Figure("clock/drive"))
	evenings := int(p.Figure("clock/evenings"))
	if early := int(p.Figure("clock/shop-evening")); early > evenings {
		c.evening(p, early)
		c.soft = c.Evenings[0].To
	}
	for ; evenings > 0; evenings-- {
		c.evening(p, evenings)
	}
	w := &c.job.Windows
	home := append(c.Evenings[:len(c.Evenings):len(c.Evenings)],
		crew.Interval{From: max(0, c.In-c.Drive-int(p.Figure("clock/morning"))), To: faraway})
	usual := len(home)
	for i := range j.Crew {
		for _, own := range c.again(&j.Crew[i]) {
			if own.From < theDay {
				home = append(home, own)
			}
		}
	}
	if len(home) > usual {
		c.usual = home[:usual]
	}
	w[crew.Home] = merged(home)
	for _, open := range w[crew.Home] {
		if open.To > theDay-dayMinutes {
			w[crew.Load] = append(w[crew.Load], open)
		}
	}
	w[crew.Site] = []crew.Interval{{From: c.In, To: faraway}}
	if down, known := c.minute(j.Brief.Down); known {
		w[crew.TakeDown] = []crew.Interval{{From: min(max(c.Doors, down), faraway-dayMinutes), To: faraway}}
	}
	c.job.Drive, c.job.Doors = c.Drive, c.Doors
}

// evening adds the usual evening so many days before the day.
func (c *Forecast) evening(p *plan.Plan, back int) {
	from := theDay - back*dayMinutes + int(p.Figure("clock/evening-hour")*60)
	c.Evenings = append(c.Evenings,
		crew.Interval{From: from, To: min(from+int(p.Figure("clock/evening-minutes")), theDay-(back-1)*dayMinutes)})
}

// again are the further times of one of the crew.
func (c *Forecast) again(m *job.Member) (times []crew.Interval) {
	for i := range m.Again {
		from, known := c.minute(m.Again[i].From)
		if to, _ := c.minute(m.Again[i].To); known && from < to {
			times = append(times, crew.Interval{From: from, To: to})
		}
	}
	return times
}
