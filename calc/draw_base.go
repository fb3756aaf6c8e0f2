package calc

import (
	"math"

	"garlandry/calc/cluster"
)

// drawBase shows the first clusters of a base from the front, with how far
// apart they stand and how thick they look, and one free ball beside them.
// accents are scattered over it.
func drawBase(v Values, r cluster.Recipe, push cluster.Push, clusters int, accents []Dot, accent cluster.Recipe) *Drawing {
	strung := arrange(r, push, clusters)
	if strung.clusters == 0 {
		return nil
	}
	var s sketch
	pitch, girth, ball := cluster.PitchMM(r, push), cluster.GirthMM(r, push), cluster.BallMM(r)
	s.line(RoleGuide, at(-pitch, 0), at(float64(clusters)*pitch, 0))
	s.lying(RoleBalloon, at(0, 0), strung.balloons)
	if len(accents) > 0 {
		one := arrangeOne(accent)
		for _, place := range accents {
			s.lying(RoleAccent, place, one)
		}
	}
	top := girth / 2
	for _, b := range strung.balloons {
		top = math.Max(top, b.across+b.radius)
	}
	if clusters > 1 {
		s.dimension(at(0, top*1.1), at(pitch, top*1.1), v.small(pitch))
	}
	left := -math.Max(pitch, ball*0.5) - ball*0.1
	s.dimension(at(left, -girth/2), at(left, girth/2), v.small(girth))
	centre := left - ball*0.8
	s.lying(RoleGhost, at(centre, 0), arrangeOne(r))
	s.dimension(at(centre-ball/2, -top*1.1), at(centre+ball/2, -top*1.1), v.small(ball))
	title := plural(clusters, "cluster", "clusters") + " of " + r.String() + " on their string, and one before it is joined"
	if len(accents) > 0 {
		title += ", with " + plural(len(accents), "accent", "accents") + " on them"
	}
	return s.drawing(title)
}

// scatter gives places for accents over a base of that length and thickness,
// spread by the golden ratio so that they never bunch.
func scatter(n int, lengthMM, thickMM float64) []Dot {
	places := make([]Dot, n)
	for i := range places {
		_, share := math.Modf(float64(i+1) * 0.6180339887)
		places[i] = at((float64(i)+0.5)/float64(n)*lengthMM, (share-0.5)*thickMM)
	}
	return places
}
