package outline

import "math"

// straight is a straight line from one point to another.
type straight struct{ from, to Point }

func (s straight) at(t float64) Point {
	return Point{
		float64(s.from.XMM*(1-t)) + float64(s.to.XMM*t),
		float64(s.from.YMM*(1-t)) + float64(s.to.YMM*t),
	}
}

func (s straight) speed(float64) float64 { return distance(s.from, s.to) }

// round is a part of an ellipse (a circle if the semi-axes are equal) from one angle to another, in radians
// anticlockwise from the right.
type round struct {
	center       Point
	halfX, halfY float64
	start, end   float64
}

func (r round) at(t float64) Point {
	sin, cos := math.Sincos(r.angle(t))
	return Point{r.center.XMM + float64(r.halfX*cos), r.center.YMM + float64(r.halfY*sin)}
}

func (r round) speed(t float64) float64 {
	sin, cos := math.Sincos(r.angle(t))
	return math.Abs(r.end-r.start) * math.Hypot(r.halfX*sin, r.halfY*cos)
}

func (r round) angle(t float64) float64 { return r.start + float64((r.end-r.start)*t) }

// bow is a parabola over 0..span. Its ends are at the height base and its middle is rise above them, or below if
// negative.
type bow struct{ span, rise, base float64 }

func (b bow) at(t float64) Point {
	return Point{float64(b.span * t), b.base + float64(4*b.rise*t*(1-t))}
}

func (b bow) speed(t float64) float64 { return math.Hypot(b.span, 4*b.rise*(1-float64(2*t))) }

// swag is a catenary over 0..2*half with its lowest point at height 0. It has constant speed, so no part is too steep
// for it.
type swag struct{ half, parameter, halfLength float64 }

func (s swag) at(t float64) Point {
	way := float64(s.halfLength * (float64(2*t) - 1))
	steep := way / s.parameter
	// sqrt(1+q²) - 1 as q²/(sqrt(1+q²)+1) keeps the digits of taut swags.
	return Point{
		s.half + float64(s.parameter*math.Asinh(steep)),
		s.parameter * steep * (steep / (math.Hypot(1, steep) + 1)),
	}
}

func (s swag) speed(float64) float64 { return 2 * s.halfLength }
