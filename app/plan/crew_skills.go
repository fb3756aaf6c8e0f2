package plan

import "garlandry/app/job"

// crewSkills are the hands at home and on site. Without a crew the owner works alone, practised; so too at home when
// nobody helps there.
func crewSkills(members []job.Member) (home, site []skill) {
	for _, m := range members {
		s := beginner
		if m.Skill == string(practised) {
			s = practised
		}
		site = append(site, s)
		if m.Home {
			home = append(home, s)
		}
	}
	if len(site) == 0 {
		site = []skill{practised}
	}
	if len(home) == 0 {
		home = []skill{practised}
	}
	return home, site
}

// breakagePct is the share that breaks in this crew's hands, before what the place and the balloon add.
func (d *Draft) breakagePct() float64 {
	sum := 0.0
	for _, s := range d.site {
		sum += d.figures.get("breakage/" + string(s))
	}
	return sum / float64(len(d.site))
}
