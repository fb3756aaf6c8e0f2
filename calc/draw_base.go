package calc

import (
	"math"

	"garlandry/calc/cluster"
)

// drawBase shows the first clusters of a base from the front, with their distance and thickness, and one free ball
// beside them. accents are scattered over it.
func drawBase(
	v Values,
	r cluster.Recipe,
	push cluster.Push,
	clusters int,
	accents []Dot,
	accent cluster.Recipe,
) *Drawing {
	strung := arrange(r, push, clusters)
	if strung.clusters == 0 {
		return nil
	}
	s := v.sketch()
	pitch, girth, ball := cluster.PitchMM(r, push), cluster.GirthMM(r, push), cluster.Measure(r, push).BallSeenMM
	s.line(RoleGuide, -pitch, 0, float64(clusters)*pitch, 0)
	s.lying(RoleBalloon, 0, 0, strung.balloons)
	if len(accents) > 0 {
		one := arrangeOne(accent)
		for _, place := range accents {
			s.lying(RoleAccent, place.XMM, place.YMM, one)
		}
	}
	top := girth / 2
	for _, b := range strung.balloons {
		top = math.Max(top, b.across+b.radius)
	}
	if clusters > 1 {
		s.dimension(0, top*1.1, pitch, top*1.1, "{small_length}", pitch)
	}
	left := -math.Max(pitch, ball*0.5) - ball*0.1
	s.dimension(left, -girth/2, left, girth/2, "{small_length}", girth)
	centre := left - ball*0.8
	s.lying(RoleGhost, centre, 0, arrangeOne(r))
	s.dimension(centre-ball/2, -top*1.1, centre+ball/2, -top*1.1, "{small_length}", ball)
	title := v.say("{cluster|clusters} of "+r.String()+" on their string, and one before it is joined", float64(clusters))
	if len(accents) > 0 {
		title += v.say(", with {accent|accents} on them", float64(len(accents)))
	}
	return s.drawing(title)
}

// scatter returns places for accents over a base of that length and thickness, spread by the golden ratio so that they
// do not bunch.
func scatter(n int, lengthMM, thickMM float64) []Dot {
	places := make([]Dot, n)
	for i := range places {
		_, share := math.Modf(float64(i+1) * 0.6180339887)
		places[i] = Dot{(float64(i) + 0.5) / float64(n) * lengthMM, (share - 0.5) * thickMM}
	}
	return places
}
