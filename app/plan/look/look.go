// Package look says what a piece looks like from the front: every balloon that the plan counts, to scale, in its
// colour. Start at [Of].
package look

import (
	"cmp"
	"math"

	"garlandry/app/job"
	"garlandry/calc/outline"
	"garlandry/calc/stable"
)

// Look is a piece as seen from the front. Lengths are in millimetres: x to the right, y up from the floor.
type Look struct {
	Balloons []Balloon // from back to front
	Colours  []job.Colour
	Lines    []Line // poles, ribbons, frames: behind the balloons
	Clusters int    // of the base, or bunches, digits and the like
	Stands   bool   // on the floor, at y = 0

	LeftMM, RightMM, BottomMM, TopMM float64

	Hall  *Hall // of a room: how large it is, and what stands in it beside the pieces; nil for one piece
	Items []Item

	line    []outline.Point // of a base on a string
	covered float64         // share of the line that several bases cover
}

// Balloon is one balloon of a look.
type Balloon struct {
	XMM, YMM, DepthMM, RadiusMM float64
	SizeIn                      int
	Colour                      int // in the look's colours
	Layer                       int // 0 for the base, then 1 and more for what sits on it, accents last
	Accent                      bool
	Cluster                     int  // in building order within its layer
	Piece                       int  // in a room: which of its items
	Knotted                     bool // it hangs on a ribbon, so that its neck and knot are seen below it
}

// Line is something thin that carries balloons. Points are pairs of x and y.
type Line struct {
	Points  []float64
	ThickMM float64
	Piece   int // in a room: which of its items
}

// close sorts the balloons from back to front and measures the look.
func (l *Look) close() {
	stable.Sort(l.Balloons, func(a, b Balloon) int { return cmp.Compare(a.DepthMM, b.DepthMM) })
	for i := range l.Balloons {
		b := &l.Balloons[i]
		l.reach(b.XMM-b.RadiusMM, b.YMM-b.RadiusMM, i == 0)
		l.reach(b.XMM+b.RadiusMM, b.YMM+b.RadiusMM, false)
	}
	for _, line := range l.Lines {
		for i := 0; i+1 < len(line.Points); i += 2 {
			l.reach(line.Points[i], line.Points[i+1], false)
		}
	}
}

// ThickMM returns how far it reaches from front to back, balloons alone.
func (l *Look) ThickMM() float64 {
	if len(l.Balloons) == 0 {
		return 0
	}
	back, front := math.Inf(1), math.Inf(-1)
	for i := range l.Balloons {
		b := &l.Balloons[i]
		back, front = min(back, b.DepthMM-b.RadiusMM), max(front, b.DepthMM+b.RadiusMM)
	}
	return front - back
}

// reach widens the look to a point; the first point begins it.
func (l *Look) reach(x, y float64, first bool) {
	if first {
		l.LeftMM, l.RightMM, l.BottomMM, l.TopMM = x, x, y, y
	}
	l.LeftMM, l.RightMM = min(l.LeftMM, x), max(l.RightMM, x)
	l.BottomMM, l.TopMM = min(l.BottomMM, y), max(l.TopMM, y)
}
