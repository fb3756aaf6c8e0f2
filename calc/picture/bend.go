package picture

import (
	"math"

	"garlandry/calc/outline"
)

// bend maps a straight string to a line: along is the distance from the start of the line, across the distance to its
// left.
type bend struct {
	points, ways []outline.Point // ways are the directions of the line at its points, of length 1
	curves       []float64       // one over the radius of the line at its points, positive where it turns left
	step, length float64
	closed       bool
}

// nearestToCentre is how near a balloon may come to the centre of a curve, as a share of the curve's radius.
const nearestToCentre = 0.1

func newBend(points []outline.Point, lengthMM float64) bend {
	n := len(points)
	b := bend{points, make([]outline.Point, n), make([]float64, n), lengthMM / float64(n-1), lengthMM, false}
	gap := square(points[n-1].XMM-points[0].XMM, points[n-1].YMM-points[0].YMM, 0)
	b.closed = n > 2 && gap < float64(b.step*b.step)/4
	for i := range points {
		before, after := max(i-1, 0), min(i+1, n-1)
		if b.closed && i == 0 {
			before = n - 2
		}
		if b.closed && i == n-1 {
			after = 1
		}
		in, out := between(points[before], points[i]), between(points[i], points[after])
		b.ways[i] = unit(outline.Point{XMM: in.XMM + out.XMM, YMM: in.YMM + out.YMM}, out)
		b.curves[i] = (float64(in.XMM*out.YMM) - float64(in.YMM*out.XMM)) / b.step
	}
	return b
}

// between returns the direction from one point to another; none if they are equal.
func between(from, to outline.Point) outline.Point {
	return unit(outline.Point{XMM: to.XMM - from.XMM, YMM: to.YMM - from.YMM}, outline.Point{})
}

// unit returns the direction of a vector, or another one if it has none.
func unit(v, other outline.Point) outline.Point {
	length := math.Sqrt(square(v.XMM, v.YMM, 0))
	if !(length > 0) {
		return other
	}
	return outline.Point{XMM: v.XMM / length, YMM: v.YMM / length}
}

// at returns the point of the plane. Beyond its ends the line goes on straight, or round if it is closed.
func (b *bend) at(along, across float64) outline.Point {
	if b.closed {
		along -= float64(math.Floor(along/b.length) * b.length)
	}
	inside := min(max(along, 0), b.length)
	i := min(int(inside/b.step), len(b.points)-2)
	share := inside/b.step - float64(i)
	way := unit(mixed(b.ways[i], b.ways[i+1], share), b.ways[i])
	if curve := b.curves[i] + float64((b.curves[i+1]-b.curves[i])*share); curve*across > 1-nearestToCentre {
		across = (1 - nearestToCentre) / curve
	}
	at, beyond := mixed(b.points[i], b.points[i+1], share), along-inside
	return outline.Point{
		XMM: at.XMM + float64(way.XMM*beyond) - float64(way.YMM*across),
		YMM: at.YMM + float64(way.YMM*beyond) + float64(way.XMM*across),
	}
}

func mixed(a, b outline.Point, share float64) outline.Point {
	return outline.Point{
		XMM: a.XMM + float64((b.XMM-a.XMM)*share),
		YMM: a.YMM + float64((b.YMM-a.YMM)*share),
	}
}
