package calc

import (
	"math"
	"sort"

	"garlandry/calc/cluster"
)

// drawBase shows the first clusters of a base from the front, with how far
// apart they stand and how thick they look, and one free ball beside them.
func drawBase(v Values, r cluster.Recipe, push cluster.Push, clusters int) *Drawing {
	if clusters < 1 {
		return nil
	}
	var s sketch
	pitch, girth, ball := cluster.PitchMM(r, push), cluster.GirthMM(r, push), cluster.BallMM(r)
	s.line(RoleGuide, at(-pitch, 0), at(float64(clusters)*pitch, 0))
	drawBalloons(&s, RoleBalloon, r, 0, pitch, girth, clusters)
	if clusters > 1 {
		level := girth * 0.6
		s.dimension(at(0, level), at(pitch, level), v.small(pitch))
	}
	left := -math.Max(pitch, ball*0.5) - ball*0.1
	s.dimension(at(left, -girth/2), at(left, girth/2), v.small(girth))
	centre := left - ball*0.75
	drawBalloons(&s, RoleGhost, r, centre, 0, ball, 1)
	s.dimension(at(centre-ball/2, -ball*0.6), at(centre+ball/2, -ball*0.6), v.small(ball))
	return s.drawing(plural(clusters, "cluster", "clusters") + " of " + r.String() + " on their string, and one before it is joined")
}

type drawnBalloon struct{ x, y, depth, radius float64 }

// drawBalloons draws rings of balloons, each turned against the one before,
// those behind first.
func drawBalloons(s *sketch, role Role, r cluster.Recipe, x, pitch, thick float64, clusters int) {
	diameters := r.DiametersMM()
	var drawn []drawnBalloon
	for k := range clusters {
		for i, d := range diameters {
			angle := 2 * math.Pi * (float64(i) + 0.25 + 0.5*float64(k%2)) / float64(len(diameters))
			reach := math.Max(thick/2-d/2, 0)
			drawn = append(drawn, drawnBalloon{x + float64(k)*pitch, reach * math.Sin(angle), reach * math.Cos(angle), d / 2})
		}
	}
	sort.SliceStable(drawn, func(a, b int) bool { return drawn[a].depth < drawn[b].depth })
	for _, b := range drawn {
		s.circle(role, at(b.x, b.y), b.radius)
	}
}
