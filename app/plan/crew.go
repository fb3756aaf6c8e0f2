package plan

import "garlandry/app/job"

// skill is how used a pair of hands is to the work.
type skill string

const (
	beginner  skill = "beginner"
	practised skill = "practised"
)

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

// effort is person-minutes: of this crew, and if everyone were a beginner or practised.
type effort struct{ crew, beginner, practised float64 }

func (e effort) plus(o effort) effort {
	return effort{e.crew + o.crew, e.beginner + o.beginner, e.practised + o.practised}
}

func (e effort) times(n float64) effort {
	return effort{float64(e.crew * n), float64(e.beginner * n), float64(e.practised * n)}
}

func (e effort) by() map[string]float64 {
	return map[string]float64{string(beginner): e.beginner, string(practised): e.practised}
}

// effort is the time for so many of a row of the time table. The crew's own figure is the harmonic mean over its hands:
// what each of them needs when they share the work out by how fast they are.
func (d *draft) effort(place Place, key string, times float64) effort {
	slow := d.figures.get("minutes/" + key + "/" + string(beginner))
	fast := d.figures.get("minutes/" + key + "/" + string(practised))
	hands := d.site
	if place == Home || place == Load {
		hands = d.home
	}
	rate := 0.0
	for _, s := range hands {
		minutes := slow
		if s == practised {
			minutes = fast
		}
		if !(minutes > 0) {
			return effort{0, slow, fast}.times(times)
		}
		rate += 1 / minutes
	}
	return effort{float64(len(hands)) / rate, slow, fast}.times(times)
}

// together is the time for work that keeps several hands busy at once: every one of them counts.
func (d *draft) together(place Place, key string, times float64) effort {
	return d.effort(place, key, times).times(d.figures.get("hands/lift"))
}

// breakagePct is the share that breaks in this crew's hands, before what the place and the balloon add.
func (d *draft) breakagePct() float64 {
	sum := 0.0
	for _, s := range d.site {
		sum += d.figures.get("breakage/" + string(s))
	}
	return sum / float64(len(d.site))
}
