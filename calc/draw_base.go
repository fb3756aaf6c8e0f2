package calc

import (
	"math"

	"garlandry/calc/cluster"
)

// both puts a quick drawing into the result and the way to a closer one.
func (r *Result) both(draw func(relaxed bool) *Drawing) {
	r.Drawing = draw(false)
	if r.Drawing != nil {
		r.Closer = func() *Drawing { return draw(true) }
	}
}

// drawBase shows the first clusters of a base from the front, with how far
// apart they stand and how thick they look, and one free ball beside them.
// accents are scattered over it.
func drawBase(v Values, r cluster.Recipe, push cluster.Push, clusters int, accents []Dot, accent cluster.Recipe, relaxed bool) *Drawing {
	if clusters < 1 {
		return nil
	}
	var s sketch
	pitch, girth, ball := cluster.PitchMM(r, push), cluster.GirthMM(r, push), cluster.BallMM(r)
	s.line(RoleGuide, at(-pitch, 0), at(float64(clusters)*pitch, 0))
	s.lying(RoleBalloon, at(0, 0), arrange(r, push, clusters, relaxed).balloons)
	for _, place := range accents {
		s.lying(RoleAccent, place, arrangeOne(accent, relaxed))
	}
	if clusters > 1 {
		level := girth * 0.65
		s.dimension(at(0, level), at(pitch, level), v.small(pitch))
	}
	left := -math.Max(pitch, ball*0.5) - ball*0.1
	s.dimension(at(left, -girth/2), at(left, girth/2), v.small(girth))
	centre := left - ball*0.75
	s.lying(RoleGhost, at(centre, 0), arrangeOne(r, relaxed))
	s.dimension(at(centre-ball/2, -ball*0.65), at(centre+ball/2, -ball*0.65), v.small(ball))
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
