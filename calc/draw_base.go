package calc

import (
	"math"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

// drawBase shows the first clusters of a base from the front, with their distance and both widths, and one free cluster
// beside them with both sizes. It has accents on it.
func drawBase(
	v Values,
	r cluster.Recipe,
	push cluster.Push,
	clusters, accents int,
	accent cluster.Recipe,
) *Drawing {
	shown := cluster.Measure(r, push)
	pitch, seen := shown.PitchMM, shown.BallSeenMM
	straight := outline.Shape{Kind: outline.Line, LengthMM: float64(clusters) * pitch}
	base, line, err := picture.Strung(straight, picture.Equal(r, clusters), push)
	if err != nil {
		return nil
	}
	s := v.sketch()
	s.line(RoleGuide, -pitch, 0, float64(clusters)*pitch, 0)
	on := picture.On(base, line.Points, 0, 1, picture.Equal(accent, accents))
	s.balloons(RoleBalloon, -pitch/2, 0, base, on...)
	top := max(shown.WidestMM/2, picture.ExtentOf(base).TopMM, picture.ExtentOf(on).TopMM)
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
	s.balloons(RoleGhost, centre, 0, picture.Free(r))
	below := func(mm float64, says string) {
		s.dimension(centre-mm/2, level, centre+mm/2, level, says+" {small_length}", mm)
		level -= seen * 0.35
	}
	below(seen, "seen")
	below(shown.BallMM, "widest")
	title := v.say("{cluster|clusters} of "+r.String()+" on their string, and one before it is joined", float64(clusters))
	if accents > 0 {
		title += v.say(", with {accent|accents} on them", float64(accents))
	}
	return s.drawing(title)
}
