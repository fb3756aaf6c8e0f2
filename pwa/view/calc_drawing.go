package view

import (
	"fmt"
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
	var note g.Node
	if d.Note != "" {
		note = g.El("figcaption", g.Text(d.Note))
	}
	return g.El("figure", h.Class("drawing"),
		h.SVG(
			g.Attr("viewBox", fmt.Sprintf("0 0 %s %s", figure(drawingWidth, 1), figure(float64(d.HeightMM*scale), 1))),
			h.Role("img"), h.Aria("label", d.Title),
			g.Map(d.Shapes, func(x calc.Shape) g.Node { return s.shape(&x) })),
		note)
}

type sketch struct{ scale, left float64 }

func (s *sketch) x(xMM float64) float64 { return s.left + float64(xMM*s.scale) }
func (s *sketch) y(yMM float64) float64 { return float64(yMM * s.scale) }

func (s *sketch) shape(shape *calc.Shape) g.Node {
	if len(shape.Points) == 0 {
		return nil
	}
	class := "d-" + string(shape.Role)
	x, y := s.x(shape.Points[0].XMM), s.y(shape.Points[0].YMM)
	switch shape.Kind {
	case calc.ShapeCircle:
		look := h.Class(class)
		switch shape.Role {
		case calc.RoleBalloon:
			look = paint(sand())
		case calc.RoleAccent:
			look = paint(gold())
		}
		return disc(figure(x, 2), figure(y, 2), figure(float64(shape.RadiusMM*s.scale), 2), look)
	case calc.ShapeLine:
		return stroke(class, s.path(shape.Points))
	case calc.ShapeArea:
		return g.El("path", h.Class(class), g.Attr("d", s.path(shape.Points)+"Z"))
	case calc.ShapeText:
		return words(x, y, shape.Text, class)
	case calc.ShapeArrow, calc.ShapeDimension:
		if len(shape.Points) > 1 {
			return s.span(shape, class)
		}
	}
	return nil
}

// stroke draws a line that encloses nothing.
func stroke(class, path string) g.Node {
	return g.El("path", h.Class(class), g.Attr("d", path), g.Attr("fill", "none"))
}

func (s *sketch) path(points []calc.Dot) string {
	places := make([]float64, 0, 2*len(points))
	for _, p := range points {
		places = append(places, s.x(p.XMM), s.y(p.YMM))
	}
	return traced(places...)
}

// traced is the path that joins places, given as pairs of x and y.
func traced(places ...float64) string {
	var b strings.Builder
	for i, place := range places {
		switch {
		case i == 0:
			b.WriteByte('M')
		case i%2 == 0:
			b.WriteByte('L')
		default:
			b.WriteByte(' ')
		}
		b.WriteString(figure(place, 2))
	}
	return b.String()
}

// words writes text centred on a place.
func words(x, y float64, text, class string) g.Node {
	half := math.Min(float64(len([]rune(text)))*3.4, drawingWidth/2)
	x = math.Max(half, math.Min(drawingWidth-half, x))
	return g.El("text", h.Class(class), g.Attr("x", figure(x, 2)), g.Attr("y", figure(math.Max(12, y+4), 2)),
		g.Attr("text-anchor", "middle"), g.Text(text))
}

// span draws an arrow or a dimension between two points, with its words beside the middle.
func (s *sketch) span(shape *calc.Shape, class string) g.Node {
	a, b := shape.Points[0], shape.Points[1]
	ax, ay, bx, by := s.x(a.XMM), s.y(a.YMM), s.x(b.XMM), s.y(b.YMM)
	length := math.Hypot(bx-ax, by-ay)
	if !(length > 0) {
		return nil
	}
	ux, uy := (bx-ax)/length, (by-ay)/length
	line := traced(ax, ay, bx, by)
	if shape.Kind == calc.ShapeArrow {
		backX, backY := bx+float64(ux*-8), by+float64(uy*-8)
		line += traced(backX-float64(uy*5), backY+float64(ux*5), bx, by, backX-float64(uy*-5), backY+float64(ux*-5))
	} else {
		line += traced(ax-float64(uy*5), ay+float64(ux*5), ax-float64(uy*-5), ay+float64(ux*-5)) +
			traced(bx-float64(uy*5), by+float64(ux*5), bx-float64(uy*-5), by+float64(ux*-5))
	}
	drawn := stroke(class, line)
	switch {
	case shape.Text == "":
		return drawn
	case math.Abs(uy) > 0.7:
		return g.Group{drawn, beside((ax+bx)/2, (ay+by)/2, length, shape.Text)}
	}
	return g.Group{drawn, words(s.x((a.XMM+b.XMM)/2), s.y((a.YMM+b.YMM)/2)-8, shape.Text, spanWords)}
}

// spanWords is the class of the words beside arrows and dimensions.
const spanWords = "d-words"

// beside writes text next to an upright line: along its left, read from below, where the line is long enough, else
// across, on the left of it where there is room.
func beside(x, y, length float64, text string) g.Node {
	if wide := float64(float64(len([]rune(text))) * 7); length < wide {
		if x > wide+8 {
			return g.El("text", h.Class(spanWords), g.Attr("x", figure(x-8, 2)), g.Attr("y", figure(y+4, 2)),
				g.Attr("text-anchor", "end"), g.Text(text))
		}
		return g.El("text", h.Class(spanWords), g.Attr("x", figure(x+8, 2)), g.Attr("y", figure(y+4, 2)),
			g.Text(text))
	}
	left, middle := figure(math.Max(12, x-6), 2), figure(y, 2)
	return g.El("text", h.Class(spanWords), g.Attr("x", left), g.Attr("y", middle),
		g.Attr("text-anchor", "middle"), g.Attr("transform", fmt.Sprintf("rotate(-90 %s %s)", left, middle)),
		g.Text(text))
}
