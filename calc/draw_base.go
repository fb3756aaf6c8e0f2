package calc

import (
	"math"

	"garlandry/calc/cluster"
)

// drawBase shows the first clusters of a base from the front, with their distance and both widths, and one free cluster
// beside them with both sizes. accents are scattered over it.
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
	shown := cluster.Measure(r, push)
	pitch, seen := shown.PitchMM, shown.BallSeenMM
	s.line(RoleGuide, -pitch, 0, float64(clusters)*pitch, 0)
	s.lying(RoleBalloon, 0, 0, strung.balloons)
	if len(accents) > 0 {
		one := arrangeOne(accent)
		for _, place := range accents {
			s.lying(RoleAccent, place.XMM, place.YMM, one)
		}
	}
	top := shown.WidestMM / 2
	for _, b := range strung.balloons {
		top = math.Max(top, b.across+b.radius)
	}
	if clusters > 1 {
		s.dimension(0, top*1.1, pitch, top*1.1, "{small_length}", pitch)
	}
	left := -math.Max(pitch, seen*0.5) - seen*0.1
	upright := func(mm float64, says string) {
		s.dimension(left, -mm/2, left, mm/2, says+" {small_length}", mm)
		left -= seen * 0.3
	}
	upright(shown.WidthMM, "seen")
	upright(shown.WidestMM, "widest")
	centre, level := left-shown.BallMM*0.5, -top*1.1
	s.lying(RoleGhost, centre, 0, arrangeOne(r))
	below := func(mm float64, says string) {
		s.dimension(centre-mm/2, level, centre+mm/2, level, says+" {small_length}", mm)
		level -= seen * 0.35
	}
	below(seen, "seen")
	below(shown.BallMM, "widest")
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
