package rig

// Ground is a combination of feet and floor.
type Ground struct {
	Name string
	// Friction is the share of the weight that resists sliding, at its low end.
	Friction     float64
	Source, Mark string
}

const society = "Pallett, Gorst, Clark, Thomas, Concrete 36(6), 2002, quoted by The Concrete Society"

// grounds lists the highest friction first. All are worse when wet, dusty or polished.
var grounds = [...]Ground{
	{"wood feet on concrete", 0.7, society, MarkPublished},
	{"rubber feet on a dry floor", 0.5, "", MarkFromMemory},
	{"concrete weights on concrete", 0.4, society, MarkPublished},
	{"carpet", 0.4, "", MarkFromMemory},
	{"grass", 0.35, "", MarkFromMemory},
	{"steel feet on concrete", 0.3, "EN 12812, lowest value, quoted by The Concrete Society", MarkPublished},
	{"polished floor", 0.2, "", MarkFromMemory},
	{"steel feet on smooth cast concrete", 0.1, society, MarkPublished},
}

// GroundNames lists the names that FindGround knows, highest friction first.
func GroundNames() []string {
	var names []string
	for _, g := range grounds {
		names = append(names, g.Name)
	}
	return names
}

// FindGround returns the ground of that name, or false.
func FindGround(name string) (Ground, bool) {
	for i := range grounds {
		if grounds[i].Name == name {
			return grounds[i], true
		}
	}
	return Ground{}, false
}
