package picture

import (
	"cmp"
	"math"

	"garlandry/calc/stable"
)

// ring is a cluster around a pole, seen from above.
type ring struct {
	members []member // in the order around the pole
	// ways are the directions of the members from the pole, across and towards the viewer.
	ways             [][2]float64
	radius           float64 // of the circle through the centres
	largest          float64 // radius of a balloon
	halfCos, halfSin float64 // half a step
}

// mostCompared is the size of ring up to which all pairs of balloons are compared.
const mostCompared = 64

// ringOf puts balloons around a pole so that neighbours touch. The sizes alternate. If two that are no neighbours
// would overlap, the ring is wider, with gaps.
func ringOf(members []member) ring {
	g := ring{members: alternating(members), halfSin: 1}
	n := len(members)
	if n == 0 {
		return g
	}
	chords, ones := make([]float64, n), make([]float64, n)
	least, whole := 0.0, 0.0
	for i, m := range g.members {
		chords[i], ones[i] = m.radius+g.members[(i+1)%n].radius, 1
		g.largest = max(g.largest, m.radius)
		least, whole = max(least, chords[i]/2, m.radius), whole+chords[i]
	}
	g.halfSin = min(0.5/circle(ones, 0.5, float64(n)), 1)
	g.halfCos = math.Sqrt(1 - float64(g.halfSin*g.halfSin))
	g.radius = circle(chords, least, whole)
	g.spread(chords)
	for n <= mostCompared && g.tooClose() {
		g.radius *= 1.01
		g.spread(chords)
	}
	return g
}

// alternating orders the members so that those of each part are spread evenly.
func alternating(members []member) []member {
	ordered, counts := append([]member(nil), members...), make([]int, len(members))
	for _, m := range members {
		counts[m.part]++
	}
	place := func(m member) float64 { return (float64(m.slot) + 0.5) / float64(counts[m.part]) }
	stable.Sort(ordered, func(a, b member) int { return cmp.Compare(place(a), place(b)) })
	return ordered
}

// circle returns the radius, from least to most, of the circle in which the chords close once around. It is least if
// they do not fill even that.
func circle(chords []float64, least, most float64) float64 {
	if !closes(chords, least, 1) {
		return least
	}
	for range 60 {
		middle := (least + most) / 2
		if closes(chords, middle, 1) {
			least = middle
		} else {
			most = middle
		}
	}
	return least
}

// closes reports whether chords, multiplied by a factor, go at least once around a circle. It adds half their angles,
// each at most a quarter turn, until they pass half a turn.
func closes(chords []float64, radius, factor float64) bool {
	x, y := 1.0, 0.0
	for _, chord := range chords {
		cos, sin := halfAngle(chord*factor, radius)
		x, y = turned(x, y, cos, sin)
		if y < 0 || y == 0 && x < 0 {
			return true
		}
	}
	return false
}

// halfAngle returns the cosine and sine of half the angle of a chord, which counts as at most the diameter.
func halfAngle(chord, radius float64) (cos, sin float64) {
	sin = min(chord/(2*radius), 1)
	return math.Sqrt(1 - float64(sin*sin)), sin
}

// spread sets the directions, starting half a step beside the viewer. Where the balloons leave gaps, it widens all
// chords by the same factor until they close the circle.
func (g *ring) spread(chords []float64) {
	low, high := 1.0, 1.0
	for !closes(chords, g.radius, high) && high < 1e6 {
		low, high = high, 2*high
	}
	for range 50 {
		middle := (low + high) / 2
		if closes(chords, g.radius, middle) {
			high = middle
		} else {
			low = middle
		}
	}
	g.ways = make([][2]float64, len(chords))
	x, y := g.halfSin, g.halfCos
	for i, chord := range chords {
		g.ways[i] = [2]float64{x, y}
		cos, sin := halfAngle(chord*low, g.radius)
		x, y = turned(x, y, cos, sin)
		x, y = turned(x, y, cos, sin)
	}
}

// tooClose reports whether two balloons overlap by more than half a percent.
func (g *ring) tooClose() bool {
	for i, a := range g.members {
		for k, b := range g.members[:i] {
			dx, dy := g.ways[i][0]-g.ways[k][0], g.ways[i][1]-g.ways[k][1]
			if g.radius*math.Sqrt(square(dx, dy, 0)) < (a.radius+b.radius)*0.995 {
				return true
			}
		}
	}
	return false
}

// turned returns the members around the pole, turned by an angle given as cosine and sine.
func (g *ring) turned(cos, sin float64) []member {
	members := append([]member(nil), g.members...)
	for i := range members {
		x, y := turned(g.ways[i][0], g.ways[i][1], cos, sin)
		members[i].across, members[i].depth = g.radius*x, g.radius*y
	}
	return members
}
