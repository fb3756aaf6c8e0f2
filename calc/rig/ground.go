package rig

// Ground is what feet stand on.
type Ground struct {
	Name string
	// Friction is the share of the weight that resists sliding, a low value.
	Friction     float64
	Source, Mark string
}

// Grounds returns those known, in a fresh slice, grippiest first. Wet, dusty or
// polished they are all worse.
func Grounds() []Ground { return append([]Ground(nil), grounds[:]...) }

const society = "Pallett, Gorst, Clark, Thomas, Concrete 36(6), 2002, quoted by The Concrete Society"

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

// FindGround returns the ground of that name; false when there is none.
func FindGround(name string) (Ground, bool) {
	for i := range grounds {
		if grounds[i].Name == name {
			return grounds[i], true
		}
	}
	return Ground{}, false
}
