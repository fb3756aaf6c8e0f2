package picture

import (
	"cmp"
	"math"

	"garlandry/calc/outline"
	"garlandry/calc/stable"
)

// Balloon is one balloon as seen from the front, in millimetres.
type Balloon struct {
	// XMM is to the right, YMM up, DepthMM towards the viewer. All three are of the centre.
	XMM, YMM, DepthMM, RadiusMM float64
	// Cluster is the number of its cluster, bunch, digit or heap in building order, from 0.
	Cluster int
	// Part is the index of its part in the normal form of the cluster's recipe, or of its size in a list of sizes.
	Part int
	// Slot counts the balloons of the same part of the same cluster, from 0.
	Slot int
}

// Size is a number of balloons of one inflated diameter.
type Size struct {
	DiameterMM float64
	Count      int
}

// LineKind says what a line shows.
type LineKind int

// The kinds of lines.
const (
	String LineKind = iota
	Pole
	Foot
	Ribbon
	Stick
)

// Line is something drawn as a line: a string, pole, foot, ribbon or stick.
type Line struct {
	Kind   LineKind
	Points []outline.Point
}

func straight(kind LineKind, x1, y1, x2, y2 float64) Line {
	return Line{kind, []outline.Point{{XMM: x1, YMM: y1}, {XMM: x2, YMM: y2}}}
}

// Extent is the rectangle around balloons.
type Extent struct{ LeftMM, RightMM, BottomMM, TopMM float64 }

// ExtentOf returns the rectangle around the balloons with their radii. It is all 0 for none.
func ExtentOf(balloons []Balloon) Extent {
	if len(balloons) == 0 {
		return Extent{}
	}
	e := Extent{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	for i := range balloons {
		b := &balloons[i]
		e.LeftMM, e.RightMM = min(e.LeftMM, b.XMM-b.RadiusMM), max(e.RightMM, b.XMM+b.RadiusMM)
		e.BottomMM, e.TopMM = min(e.BottomMM, b.YMM-b.RadiusMM), max(e.TopMM, b.YMM+b.RadiusMM)
	}
	return e
}

// BackToFront returns the indices of the balloons in the order in which they are painted. Of equal depths, the first
// is painted first.
func BackToFront(balloons []Balloon) []int {
	order := make([]int, len(balloons))
	for i := range order {
		order[i] = i
	}
	stable.Sort(order, func(a, b int) int { return cmp.Compare(balloons[a].DepthMM, balloons[b].DepthMM) })
	return order
}

// OnFloor raises every balloon that is below the floor until it lies on it, for garlands whose line starts at the
// floor. The feet get wider there, as real ones do, and the height stays as typed.
func OnFloor(balloons []Balloon) {
	for i := range balloons {
		balloons[i].YMM = max(balloons[i].YMM, balloons[i].RadiusMM)
	}
}

func moveX(balloons []Balloon, mm float64) {
	for i := range balloons {
		balloons[i].XMM += mm
	}
}

// Limits of a diameter that is drawn.
const (
	leastMM = 1
	mostMM  = 1e5
)

// radiusOf returns half a diameter within the limits, the least for what is not a number.
func radiusOf(diameterMM float64) float64 {
	if !(diameterMM > leastMM) {
		return leastMM / 2.0
	}
	return min(diameterMM, mostMM) / 2
}

// square returns the sum of squares.
func square(x, y, z float64) float64 { return float64(x*x) + float64(y*y) + float64(z*z) }
