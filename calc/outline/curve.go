package outline

import (
	"fmt"
	"math"
)

// MostPoints is the largest number of points in a free curve, and the largest that [Points] returns.
const MostPoints = 10_000

// Point is a point of the drawing plane: XMM to the right, YMM up, the floor at YMM = 0.
type Point struct {
	XMM float64 `json:"x_mm"`
	YMM float64 `json:"y_mm"`
}

// CurveMM returns the length of the smooth curve through the points in the given order. It is a centripetal Catmull-Rom
// curve: it passes every point, adds no loops, and is straight where the points are. Two points make a straight line. A
// last point equal to the first closes the curve smoothly. Repeated neighbours count once; fewer than two different
// points give ErrTooFewPoints.
func CurveMM(points []Point) (float64, error) {
	line, err := curvePath(points)
	if err != nil {
		return 0, err
	}
	return line.lengthMM(), nil
}

func curvePath(points []Point) (path, error) {
	if len(points) > MostPoints {
		return nil, fmt.Errorf("curve of %d points: %w, at most %d", len(points), ErrTooMany, MostPoints)
	}
	distinct := make([]Point, 0, len(points))
	for i, point := range points {
		if err := checkPoint(i, point); err != nil {
			return nil, err
		}
		if len(distinct) == 0 || distance(distinct[len(distinct)-1], point) > 0 {
			distinct = append(distinct, point)
		}
	}
	if len(distinct) < 2 {
		return nil, fmt.Errorf("curve of %d different points: %w, at least 2", len(distinct), ErrTooFewPoints)
	}
	return smoothPath(distinct), nil
}

func checkPoint(index int, point Point) error {
	for _, value := range [2]float64{point.XMM, point.YMM} {
		if err := checkBetween(fmt.Sprintf("point %d", index+1), math.Abs(value), 0); err != nil {
			return err
		}
	}
	return nil
}

func distance(a, b Point) float64 { return math.Hypot(b.XMM-a.XMM, b.YMM-a.YMM) }

// smoothPath joins the points (neighbours differ) by Hermite cubics whose
// knots are the square roots of the chords.
func smoothPath(points []Point) path {
	last := len(points) - 1
	knots := make([]float64, last)
	slopes := make([]Point, last)
	for i := range knots {
		knots[i] = math.Sqrt(distance(points[i], points[i+1]))
		slopes[i] = Point{
			(points[i+1].XMM - points[i].XMM) / knots[i],
			(points[i+1].YMM - points[i].YMM) / knots[i],
		}
	}
	tangents := make([]Point, last+1)
	for i := 1; i < last; i++ {
		tangents[i] = blend(slopes[i-1], slopes[i], knots[i-1], knots[i])
	}
	switch {
	case points[0] == points[last] && last > 2:
		tangents[0] = blend(slopes[last-1], slopes[0], knots[last-1], knots[0])
		tangents[last] = tangents[0]
	case last == 1:
		tangents[0], tangents[1] = slopes[0], slopes[0]
	default:
		tangents[0] = leadIn(slopes[0], tangents[1])
		tangents[last] = leadIn(slopes[last-1], tangents[last-1])
	}
	line := make(path, 0, last)
	for i := range knots {
		line = append(line, newPiece(hermite{
			points[i], points[i+1],
			tangents[i].times(knots[i]), tangents[i+1].times(knots[i]),
		}))
	}
	return line
}

func (p Point) times(factor float64) Point {
	return Point{float64(p.XMM * factor), float64(p.YMM * factor)}
}

// blend returns the tangent between two chords: the slope of the parabola through the three points. The shorter chord
// weighs more.
func blend(before, after Point, knotBefore, knotAfter float64) Point {
	total := knotBefore + knotAfter
	return Point{
		(float64(before.XMM*knotAfter) + float64(after.XMM*knotBefore)) / total,
		(float64(before.YMM*knotAfter) + float64(after.YMM*knotBefore)) / total,
	}
}

// leadIn returns the end tangent that makes the end piece a parabola.
func leadIn(slope, neighbour Point) Point {
	return Point{float64(2*slope.XMM) - neighbour.XMM, float64(2*slope.YMM) - neighbour.YMM}
}

// hermite is a cubic from one point to another with given end speeds.
type hermite struct{ from, to, leave, arrive Point }

func (h hermite) at(t float64) Point {
	return Point{
		hermiteAt(h.from.XMM, h.to.XMM, h.leave.XMM, h.arrive.XMM, t),
		hermiteAt(h.from.YMM, h.to.YMM, h.leave.YMM, h.arrive.YMM, t),
	}
}

func (h hermite) speed(t float64) float64 {
	return math.Hypot(
		hermiteSpeed(h.from.XMM, h.to.XMM, h.leave.XMM, h.arrive.XMM, t),
		hermiteSpeed(h.from.YMM, h.to.YMM, h.leave.YMM, h.arrive.YMM, t),
	)
}

func hermiteAt(from, to, leave, arrive, t float64) float64 {
	u := 1 - t
	return float64(from*(1+float64(2*t))*u*u) + float64(to*(3-float64(2*t))*t*t) +
		float64(leave*t*u*u) - float64(arrive*t*t*u)
}

func hermiteSpeed(from, to, leave, arrive, t float64) float64 {
	u := 1 - t
	return float64(6*(to-from)*t*u) + float64(leave*u*(1-float64(3*t))) + float64(arrive*t*(float64(3*t)-2))
}
