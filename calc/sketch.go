package calc

import (
	"math"

	"garlandry/calc/measure"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

// sketch collects shapes, with y pointing up and the floor at 0, for a Drawing. Texts are patterns with figures; see
// say.
type sketch struct {
	shapes []Shape
	units  measure.System
}

func (v Values) sketch() *sketch { return &sketch{units: v.given.system} }

// add appends a shape; points are pairs of across and up.
func (s *sketch) add(kind ShapeKind, role Role, text string, radiusMM float64, places ...float64) {
	points := make([]Dot, len(places)/2)
	for i := range points {
		points[i] = Dot{places[2*i], places[2*i+1]}
	}
	s.shapes = append(s.shapes, Shape{Kind: kind, Role: role, Text: text, RadiusMM: radiusMM, Points: points})
}

func (s *sketch) circle(role Role, x, y, radiusMM float64) {
	s.add(ShapeCircle, role, "", radiusMM, x, y)
}

// balloons draws balloons around a point from back to front, and accents among them.
func (s *sketch) balloons(role Role, x, y float64, balloons []picture.Balloon, accents ...picture.Balloon) {
	all := append(balloons[:len(balloons):len(balloons)], accents...)
	for _, i := range picture.BackToFront(all) {
		as := role
		if i >= len(balloons) {
			as = RoleAccent
		}
		s.circle(as, x+all[i].XMM, y+all[i].YMM, all[i].RadiusMM)
	}
}

// line joins points given as pairs of across and up.
func (s *sketch) line(role Role, places ...float64) { s.add(ShapeLine, role, "", 0, places...) }

func (s *sketch) box(role Role, left, bottom, width, height float64) {
	s.add(ShapeArea, role, "", 0, left, bottom, left+width, bottom, left+width, bottom+height, left, bottom+height)
}

// span is an arrow to its second point, or a dimension between two.
func (s *sketch) span(kind ShapeKind, role Role, x1, y1, x2, y2 float64, pattern string, figures []float64) {
	text, _ := say(s.units, pattern, figures)
	s.add(kind, role, text, 0, x1, y1, x2, y2)
}

func (s *sketch) arrow(role Role, x1, y1, x2, y2 float64, pattern string, figures ...float64) {
	s.span(ShapeArrow, role, x1, y1, x2, y2, pattern, figures)
}

func (s *sketch) dimension(x1, y1, x2, y2 float64, pattern string, figures ...float64) {
	s.span(ShapeDimension, RoleMeasure, x1, y1, x2, y2, pattern, figures)
}

func (s *sketch) text(x, y float64, pattern string, figures ...float64) {
	text, _ := say(s.units, pattern, figures)
	s.add(ShapeText, RoleMeasure, text, 0, x, y)
}

func (s *sketch) path(role Role, points []outline.Point) {
	places := make([]float64, 0, 2*len(points))
	for _, p := range points {
		places = append(places, p.XMM, p.YMM)
	}
	s.line(role, places...)
}

// drawing fits the shapes into a box with a margin of a twelfth of its longer side, turns y down, and rounds to a
// hundredth of a millimetre. It returns nil if nothing was drawn or something is not finite.
func (s *sketch) drawing(pattern string, figures ...float64) *Drawing {
	left, bottom := math.Inf(1), math.Inf(1)
	right, top := math.Inf(-1), math.Inf(-1)
	for i := range s.shapes {
		shape := &s.shapes[i]
		for _, p := range shape.Points {
			left, right = min(left, p.XMM-shape.RadiusMM), max(right, p.XMM+shape.RadiusMM)
			bottom, top = min(bottom, p.YMM-shape.RadiusMM), max(top, p.YMM+shape.RadiusMM)
		}
	}
	longer := max(right-left, top-bottom)
	if len(s.shapes) == 0 || math.IsNaN(longer) || math.IsInf(longer, 0) || longer <= 0 {
		return nil
	}
	margin := longer / 12
	for i := range s.shapes {
		shape := &s.shapes[i]
		for k, p := range shape.Points {
			shape.Points[k] = Dot{hundredth(p.XMM - left + margin), hundredth(top - p.YMM + margin)}
		}
		shape.RadiusMM = hundredth(shape.RadiusMM)
	}
	title, _ := say(s.units, pattern, figures)
	return &Drawing{WidthMM: hundredth(right - left + 2*margin), HeightMM: hundredth(top - bottom + 2*margin),
		Title: title, Shapes: s.shapes}
}

func hundredth(x float64) float64 { return math.Round(x*100) / 100 }
