package view

import (
	"math"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/calc"
)

// drawingWidth is the width of a drawing in its own units; words are sized against it, so that they can be read on a
// phone whatever the scale.
const drawingWidth = 360.0

// drawingTallest keeps a tall thing from filling more than a phone.
const drawingTallest = 420.0

// Draw turns plain geometry in millimetres into a picture to scale. Empty for a drawing without extent.
func Draw(d calc.Drawing) g.Node {
	if !(d.WidthMM > 0) || !(d.HeightMM > 0) || math.IsInf(d.WidthMM, 0) || math.IsInf(d.HeightMM, 0) {
		return g.Group{}
	}
	scale := math.Min(drawingWidth/d.WidthMM, drawingTallest/d.HeightMM)
	s := sketch{scale: scale, left: (drawingWidth - float64(d.WidthMM*scale)) / 2}
	height := float64(d.HeightMM * scale)
	return h.Figure(h.Class("drawing"),
		h.SVG(g.Attr("viewBox", "0 0 "+figure(drawingWidth, 1)+" "+figure(height, 1)), h.Role("img"), h.Aria("label", d.Title),
			g.Map(d.Shapes, s.shape)),
		g.If(d.Note != "", h.FigCaption(g.Text(d.Note))))
}

type sketch struct{ scale, left float64 }

func (s sketch) x(d calc.Dot) float64 { return s.left + float64(d.XMM*s.scale) }
func (s sketch) y(d calc.Dot) float64 { return float64(d.YMM * s.scale) }

func (s sketch) shape(shape calc.Shape) g.Node {
	if len(shape.Points) == 0 {
		return g.Group{}
	}
	class := g.Attr("class", "d-"+string(shape.Role))
	first := shape.Points[0]
	switch shape.Kind {
	case calc.ShapeCircle:
		return g.El("circle", class, g.Attr("cx", figure(s.x(first), 2)), g.Attr("cy", figure(s.y(first), 2)), g.Attr("r", figure(float64(shape.RadiusMM*s.scale), 2)))
	case calc.ShapeLine:
		return g.El("path", class, g.Attr("d", s.path(shape.Points)), g.Attr("fill", "none"))
	case calc.ShapeArea:
		return g.El("path", class, g.Attr("d", s.path(shape.Points)+"Z"))
	case calc.ShapeText:
		return s.words(first, shape.Text, class, 0)
	case calc.ShapeArrow, calc.ShapeDimension:
		if len(shape.Points) < 2 {
			return g.Group{}
		}
		return s.span(shape, class)
	}
	return g.Group{}
}

func (s sketch) path(points []calc.Dot) string {
	var b strings.Builder
	for i, p := range points {
		if i == 0 {
			b.WriteByte('M')
		} else {
			b.WriteByte('L')
		}
		b.WriteString(figure(s.x(p), 2))
		b.WriteByte(' ')
		b.WriteString(figure(s.y(p), 2))
	}
	return b.String()
}

// words writes text centred on a point, lifted by so many units.
func (s sketch) words(at calc.Dot, text string, class g.Node, lift float64) g.Node {
	half := math.Min(float64(len([]rune(text)))*3.4, drawingWidth/2)
	x := math.Max(half, math.Min(drawingWidth-half, s.x(at)))
	return g.El("text", class, g.Attr("x", figure(x, 2)), g.Attr("y", figure(math.Max(12, s.y(at)+4-lift), 2)), g.Attr("text-anchor", "middle"), g.Text(text))
}

// span draws an arrow or a dimension between two points, with its words beside the middle.
func (s sketch) span(shape calc.Shape, class g.Node) g.Node {
	a, b := shape.Points[0], shape.Points[1]
	ax, ay, bx, by := s.x(a), s.y(a), s.x(b), s.y(b)
	length := math.Hypot(bx-ax, by-ay)
	if !(length > 0) {
		return g.Group{}
	}
	ux, uy := (bx-ax)/length, (by-ay)/length
	line := "M" + figure(ax, 2) + " " + figure(ay, 2) + "L" + figure(bx, 2) + " " + figure(by, 2)
	tip := func(x, y, forward, aside float64) string {
		return figure(x+float64(ux*forward)-float64(uy*aside), 2) + " " + figure(y+float64(uy*forward)+float64(ux*aside), 2)
	}
	if shape.Kind == calc.ShapeArrow {
		line += "M" + tip(bx, by, -8, 5) + "L" + figure(bx, 2) + " " + figure(by, 2) + "L" + tip(bx, by, -8, -5)
	} else {
		line += "M" + tip(ax, ay, 0, 5) + "L" + tip(ax, ay, 0, -5) + "M" + tip(bx, by, 0, 5) + "L" + tip(bx, by, 0, -5)
	}
	drawn := g.El("path", class, g.Attr("d", line), g.Attr("fill", "none"))
	if shape.Text == "" {
		return drawn
	}
	named := g.Attr("class", "d-words")
	if math.Abs(uy) > 0.7 {
		return g.Group{drawn, beside((ax+bx)/2, (ay+by)/2, length, shape.Text, named)}
	}
	return g.Group{drawn, s.words(calc.Dot{XMM: (a.XMM + b.XMM) / 2, YMM: (a.YMM + b.YMM) / 2}, shape.Text, named, 8)}
}

// beside writes text next to an upright line: along its left, read from below, where the line is long enough, else to the
// right of it.
func beside(x, y, length float64, text string, class g.Node) g.Node {
	if length < float64(float64(len([]rune(text)))*10) {
		return g.El("text", class, g.Attr("x", figure(x+8, 2)), g.Attr("y", figure(y+4, 2)), g.Text(text))
	}
	left, middle := figure(math.Max(12, x-6), 2), figure(y, 2)
	return g.El("text", class, g.Attr("x", left), g.Attr("y", middle), g.Attr("text-anchor", "middle"), g.Attr("transform", "rotate(-90 "+left+" "+middle+")"), g.Text(text))
}
