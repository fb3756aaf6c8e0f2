package picture

import (
	"math"

	"garlandry/calc/cluster"
	"garlandry/calc/softsphere"
)

// Clusters are clusters in building order, which may differ in their recipe: a colour that lacks a size has
// substitutes.
type Clusters struct {
	Recipes []cluster.Recipe
	// Order has the index of the recipe of each cluster.
	Order []int
	// Rests holds how clusters of earlier pictures rest; nil: each is relaxed anew.
	Rests *Rests
}

// Equal returns n clusters of one recipe.
func Equal(r cluster.Recipe, n int) Clusters {
	return Clusters{Recipes: []cluster.Recipe{r}, Order: make([]int, max(n, 0))}
}

// member is one balloon of a cluster, in relation to its knot. Along is up in a column and to the right in a straight
// garland, across to the left of it.
type member struct {
	along, across, depth, radius float64
	part, slot                   int
}

// membersOf lists the balloons of a recipe, all at the knot: two for each duplet, in the order of DiametersMM.
func membersOf(r cluster.Recipe) []member {
	var members []member
	for part, p := range r.Normal() {
		for slot := range 2 * max(p.Duplets, 0) {
			members = append(members, member{radius: radiusOf(p.DiameterMM()), part: part, slot: slot})
		}
	}
	return members
}

func diametersOf(members []member) []float64 {
	diameters := make([]float64, len(members))
	for i := range members {
		diameters[i] = 2 * members[i].radius
	}
	return diameters
}

// model is how clusters of one recipe rest on a string. The clusters repeat: the first rests against the last.
type model struct {
	clusters [][]member
	pitch    float64
}

// modelled is the number of clusters that are relaxed, the smallest that calc/softsphere relaxes.
const modelled = 10

// modelSeed is the start of the relaxation. Of 1 to 10 it is the one whose pictures cover nearest to
// cluster.Coverage.
const modelSeed = 6

// girthSlack is how far a balloon may stick out of the girth, as a share of the girth. Others are moved in: the girth
// is measured across, and a string with a bend reaches further on one side.
const girthSlack = 0.015

// modelOf relaxes clusters of the recipe at their pitch and spreads them across until they look as wide as counted,
// mostly by a percent or two: cluster.WidthMM is of a rule, not of a single string. A recipe that cannot be relaxed
// gets rings.
func modelOf(r cluster.Recipe, push cluster.Push) model {
	members, shown := membersOf(r), cluster.Measure(r, push)
	rest, err := softsphere.Held(diametersOf(members), modelled, shown.PitchMM, modelSeed)
	if err != nil {
		ring := ringOf(members)
		pitch := shown.PitchMM
		if !(pitch > 0) {
			pitch = 2 * ring.largest
		}
		return model{[][]member{ring.turned(1, 0), ring.turned(ring.halfCos, ring.halfSin)}, pitch}
	}
	wide := 1.0
	if seen := rest.WidthMM(); seen > 0 {
		wide = shown.WidthMM / seen
	}
	m := model{make([][]member, modelled), shown.PitchMM}
	all := make([]member, 0, len(rest.Balloons))
	for _, b := range rest.Balloons {
		one := members[b.Kind]
		one.along = b.Z - float64((float64(b.Cluster)+0.5)*shown.PitchMM)
		one.across, one.depth = within(b.X*wide, b.Y*wide, float64(shown.WidestMM/2*(1+girthSlack))-b.Radius)
		all = append(all, one)
	}
	for i := range m.clusters {
		m.clusters[i] = all[i*len(members) : (i+1)*len(members)]
	}
	return m
}

// within moves a point towards the middle until it is no further away than the most.
func within(x, y, most float64) (float64, float64) {
	away := math.Sqrt(square(x, y, 0))
	if away <= most || !(most > 0) {
		return x, y
	}
	return x * (most / away), y * (most / away)
}

// Free returns the balloons of one cluster that is not on a string, its knot at 0, 0. They are in the order of
// DiametersMM of its recipe. Of its three sides, the flattest faces the viewer, so that little is hidden. It is empty
// for a recipe without balloons.
func Free(r cluster.Recipe) []Balloon {
	members := freeOf(r)
	flattest, least := 0, math.Inf(1)
	for side := range 3 {
		deep := 0.0
		for i := range members {
			m := &members[i]
			deep += float64(m.depth * m.depth)
			m.along, m.across, m.depth = m.across, m.depth, m.along
		}
		if deep < least {
			flattest, least = side, deep
		}
	}
	for range flattest {
		for i := range members {
			m := &members[i]
			m.along, m.across, m.depth = m.across, m.depth, m.along
		}
	}
	return facing(members, 1, 0)
}

// freeOf returns one free cluster around its knot.
func freeOf(r cluster.Recipe) []member {
	members := membersOf(r)
	rest, err := softsphere.FreeSketch(diametersOf(members))
	if err != nil {
		ring := ringOf(members)
		return ring.turned(1, 0)
	}
	for i, b := range rest.Balloons {
		members[i].along, members[i].across, members[i].depth = b.Z, b.X, b.Y
	}
	return members
}
