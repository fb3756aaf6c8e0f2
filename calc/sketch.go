package calc

import (
	"math"

	"garlandry/calc/outline"
)

// sketch gathers shapes with y pointing up, the floor at 0, and turns them into
// a Drawing.
type sketch struct{ shapes []Shape }

func at(x, y float64) Dot { return Dot{x, y} }

//go:noinline
func (s *sketch) add(kind ShapeKind, role Role, text string, radiusMM float64, points ...Dot) {
	s.shapes = append(s.shapes, Shape{Kind: kind, Role: role, Text: text, RadiusMM: radiusMM, Points: points})
}

//go:noinline
func (s *sketch) circle(role Role, centre Dot, radiusMM float64) {
	s.add(ShapeCircle, role, "", radiusMM, centre)
}

//go:noinline
func (s *sketch) line(role Role, points ...Dot) { s.add(ShapeLine, role, "", 0, points...) }

//go:noinline
func (s *sketch) area(role Role, points ...Dot) { s.add(ShapeArea, role, "", 0, points...) }

//go:noinline
func (s *sketch) box(role Role, left, bottom, width, height float64) {
	s.area(role, at(left, bottom), at(left+width, bottom), at(left+width, bottom+height), at(left, bottom+height))
}

//go:noinline
func (s *sketch) arrow(role Role, from, to Dot, text string) {
	s.add(ShapeArrow, role, text, 0, from, to)
}

//go:noinline
func (s *sketch) dimension(from, to Dot, text string) {
	s.add(ShapeDimension, RoleMeasure, text, 0, from, to)
}

//go:noinline
func (s *sketch) text(where Dot, text string) { s.add(ShapeText, RoleMeasure, text, 0, where) }

func (s *sketch) path(role Role, points []outline.Point) {
	dots := make([]Dot, len(points))
	for i, p := range points {
		dots[i] = at(p.XMM, p.YMM)
	}
	s.line(role, dots...)
}

// drawing fits the shapes into a box with a margin of a twelfth of its longer
// side, turns y down, and rounds to a hundredth of a millimetre. It is nil when
// nothing was drawn or something is not finite.
func (s *sketch) drawing(title string) *Drawing {
	left, bottom := math.Inf(1), math.Inf(1)
	right, top := math.Inf(-1), math.Inf(-1)
	for _, shape := range s.shapes {
		for _, p := range shape.Points {
			left, right = math.Min(left, p.XMM-shape.RadiusMM), math.Max(right, p.XMM+shape.RadiusMM)
			bottom, top = math.Min(bottom, p.YMM-shape.RadiusMM), math.Max(top, p.YMM+shape.RadiusMM)
		}
	}
	longer := math.Max(right-left, top-bottom)
	if len(s.shapes) == 0 || math.IsNaN(longer) || math.IsInf(longer, 0) || longer <= 0 {
		return nil
	}
	margin := longer / 12
	d := &Drawing{WidthMM: hundredth(right - left + 2*margin), HeightMM: hundredth(top - bottom + 2*margin), Title: title}
	for _, shape := range s.shapes {
		points := make([]Dot, len(shape.Points))
		for i, p := range shape.Points {
			points[i] = Dot{hundredth(p.XMM - left + margin), hundredth(top - p.YMM + margin)}
		}
		shape.Points = points
		shape.RadiusMM = hundredth(shape.RadiusMM)
		d.Shapes = append(d.Shapes, shape)
	}
	return d
}

func hundredth(x float64) float64 { return math.Round(x*100) / 100 }
