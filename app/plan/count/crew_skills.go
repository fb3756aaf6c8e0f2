package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
)

// crewSkills returns the skills of the people at home and on site. Where there is nobody, it is one practised person:
// the owner.
func crewSkills(members []job.Member) (home, site []figures.Skill) {
	for _, m := range members {
		s := figures.Beginner
		if m.Skill == string(figures.Practised) {
			s = figures.Practised
		}
		site = append(site, s)
		if m.Home {
			home = append(home, s)
		}
	}
	if len(site) == 0 {
		site = []figures.Skill{figures.Practised}
	}
	if len(home) == 0 {
		home = []figures.Skill{figures.Practised}
	}
	return home, site
}

// BreakagePct returns the percentage that breaks in this crew's hands, before what the place and the balloon add.
func (d *Draft) BreakagePct() float64 {
	sum := 0.0
	for _, s := range d.Site {
		sum += d.Figures.Get("breakage/" + string(s))
	}
	return sum / float64(len(d.Site))
}
