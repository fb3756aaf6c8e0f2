package colour

import "math"

// Lab is a colour in CIELAB with white point D65 (CIE 15): L is its lightness, 0 black to 100 white; A goes from green
// to red, B from blue to yellow.
type Lab struct{ L, A, B float64 }

// Lab returns where the colour lies in CIELAB. Greys have A and B of 0 to within 1e-9.
func (c RGB) Lab() Lab {
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	// The matrix of IEC 61966-2-1 with more digits, from its primaries. The sum of a row is the white point.
	x := bend((float64(0.4123908*r) + float64(0.3575843*g) + float64(0.1804808*b)) / 0.9504559)
	y := bend(float64(0.2126390*r) + float64(0.7151687*g) + float64(0.0721923*b))
	z := bend((float64(0.0193308*r) + float64(0.1191948*g) + float64(0.9505322*b)) / 1.0890578)
	return Lab{float64(116*y) - 16, 500 * (x - y), 200 * (y - z)}
}

// bend is CIELAB's cube root with its straight part near black.
func bend(t float64) float64 {
	if t > 216.0/24389 {
		return power(t, 1.0/3)
	}
	return (float64(24389.0/27*t) + 16) / 116
}

// Difference returns the CIEDE2000 difference of two colours, rounded to four decimals as it is published (CIE 142,
// 2001; implemented after Sharma, Wu and Dalal, Color Research & Application 30, 2005). All weights are 1. About 1 is
// the least that a trained eye tells apart side by side.
func Difference(a, b Lab) float64 {
	meanC := (math.Hypot(a.A, a.B) + math.Hypot(b.A, b.B)) / 2
	g := 1 + float64(0.5*(1-chromaRoot(meanC)))
	aA, bA := g*a.A, g*b.A
	c1, c2 := math.Hypot(aA, a.B), math.Hypot(bA, b.B)
	h1, h2 := hueDeg(aA, a.B), hueDeg(bA, b.B)
	turnDeg, sumDeg := h2-h1, h1+h2
	switch {
	case c1*c2 == 0:
		turnDeg = 0
	case math.Abs(turnDeg) <= 180+1e-9: // opposite hues, whatever the last bit says
		sumDeg /= 2
	case sumDeg < 360:
		turnDeg, sumDeg = turnDeg-math.Copysign(360, turnDeg), (sumDeg+360)/2
	default:
		turnDeg, sumDeg = turnDeg-math.Copysign(360, turnDeg), (sumDeg-360)/2
	}
	meanL := (a.L + b.L) / 2
	meanC = (c1 + c2) / 2
	t := 1 - float64(0.17*cosDeg(sumDeg-30)) + float64(0.24*cosDeg(2*sumDeg)) +
		float64(0.32*cosDeg(float64(3*sumDeg)+6)) - float64(0.20*cosDeg(float64(4*sumDeg)-63))
	off := (meanL - 50) * (meanL - 50)
	l := (b.L - a.L) / (1 + float64(0.015*off)/math.Sqrt(20+off))
	c := (c2 - c1) / (1 + float64(0.045*meanC))
	h := 2 * math.Sqrt(c1*c2) * cosDeg(90-turnDeg/2) / (1 + float64(0.015*meanC*t))
	blue := (sumDeg - 275) / 25
	turn := -2 * chromaRoot(meanC) * cosDeg(90-float64(60*math.Exp(-float64(blue*blue))))
	sum := float64(l*l) + float64(c*c) + float64(h*h) + float64(turn*c*h)
	return math.Round(math.Sqrt(math.Max(sum, 0))*1e4) / 1e4
}

// chromaRoot is the root of c^7 / (c^7 + 25^7), which occurs twice in the formula.
func chromaRoot(c float64) float64 {
	seventh := c * c * c * c * c * c * c
	return math.Sqrt(seventh / (seventh + 6103515625))
}

// hueDeg is an angle from 0 to below 360.
func hueDeg(a, b float64) float64 {
	deg := math.Atan2(b, a) * (180 / math.Pi)
	if deg < 0 {
		deg += 360
	}
	return deg
}

func cosDeg(deg float64) float64 { return math.Cos(deg * (math.Pi / 180)) }
