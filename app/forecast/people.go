package forecast

import (
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/calc/crew"
)

const theDay = daysAhead * dayMinutes // when the day of the job begins, in minutes from the origin

// crew adds the people of the crew list, and the owner if nobody in the list works at home.
func (f *Forecast) crew(j *job.Job) {
	atHome := false
	for i := range j.Crew {
		m := &j.Crew[i]
		free, home := f.free(m)
		atHome = atHome || home
		f.person(m.ID, m.Name, m.Skill == string(figures.Practised), free, home)
	}
	if !atHome {
		f.person("", job.UnnamedOwner, true, nil, true)
		if len(j.Crew) > 0 {
			f.job.People[len(f.job.People)-1].Only = []crew.Place{crew.Home, crew.Load}
		}
	}
}

func (f *Forecast) person(key, name string, skilled bool, free []crew.Interval, home bool) {
	p := crew.Person{Key: key, Practised: skilled, Free: free}
	if !home {
		p.Only = []crew.Place{crew.Site, crew.TakeDown}
	}
	f.job.People = append(f.job.People, p)
	f.People = append(f.People, Person{key, name, skilled})
}

// minute returns a moment in minutes from the origin, within bounds.
func (f *Forecast) minute(m job.Moment) (minute int, known bool) {
	at, known := m.Time()
	return int(min(max(at.Unix()/60-f.Origin, 0), faraway)), known
}

// free returns when a member is there, nil for always, and whether they work at home too. From and To are about the
// day itself. Those who help at home do so on the usual evenings before it, or at their own times before it.
func (f *Forecast) free(m *job.Member) (free []crew.Interval, home bool) {
	from, late := f.minute(m.From)
	to, early := f.minute(m.To)
	own := false
	free = f.again(m)
	for i := range free {
		own = own || free[i].From < theDay
	}
	home = m.Home || own
	if !late && !early && free == nil && !(home && f.usual != nil) {
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
	if before := min(from, theDay); home && !own && f.usual == nil {
		free = append(free, crew.Interval{From: 0, To: before})
	} else if home && !own {
		for _, u := range f.usual {
			free = append(free, crew.Interval{From: u.From, To: min(u.To, before)})
		}
	}
	if free = merged(free); free == nil { // an empty list would mean always
		free = []crew.Interval{{From: faraway - 1, To: faraway}}
	}
	return free, home
}

// merged sorts times and joins those that touch or overlap.
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

// windows sets the times for work at home, loading, on site and taking down. Shopping has an evening before those on
// which balloons are filled.
func (f *Forecast) windows(j *job.Job, p *plan.Plan) {
	f.Drive = int(p.Drive)
	evenings := int(p.Figure("clock/evenings"))
	if early := int(p.Figure("clock/shop-evening")); early > evenings {
		f.evening(p, early)
		f.soft = f.Evenings[0].To
	}
	for ; evenings > 0; evenings-- {
		f.evening(p, evenings)
	}
	w := &f.job.Windows
	home := append(f.Evenings[:len(f.Evenings):len(f.Evenings)],
		crew.Interval{From: max(0, f.In-f.Drive-int(p.Figure("clock/morning"))), To: faraway})
	usual := len(home)
	for i := range j.Crew {
		for _, own := range f.again(&j.Crew[i]) {
			if own.From < theDay {
				home = append(home, own)
			}
		}
	}
	if len(home) > usual {
		f.usual = home[:usual]
	}
	w[crew.Home] = merged(home)
	for _, open := range w[crew.Home] {
		if open.To > theDay-dayMinutes {
			w[crew.Load] = append(w[crew.Load], open)
		}
	}
	w[crew.Site] = []crew.Interval{{From: f.In, To: faraway}}
	if down, known := f.minute(j.Brief.Down); known {
		w[crew.TakeDown] = []crew.Interval{{From: min(max(f.Doors, down), faraway-dayMinutes), To: faraway}}
	}
	f.job.Drive, f.job.Doors = f.Drive, f.Doors
}

// evening adds the usual evening a number of days before the day.
func (f *Forecast) evening(p *plan.Plan, back int) {
	from := theDay - back*dayMinutes + int(p.Figure("clock/evening-hour")*60)
	f.Evenings = append(f.Evenings,
		crew.Interval{From: from, To: min(from+int(p.Figure("clock/evening-minutes")), theDay-(back-1)*dayMinutes)})
}

// again returns the further times of a member.
func (f *Forecast) again(m *job.Member) (times []crew.Interval) {
	for i := range m.Again {
		from, known := f.minute(m.Again[i].From)
		if to, _ := f.minute(m.Again[i].To); known && from < to {
			times = append(times, crew.Interval{From: from, To: to})
		}
	}
	return times
}
