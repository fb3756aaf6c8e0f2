package cluster

import "math"

// TouchingPitchMM is how far apart flat rings of n equal balloons stand when
// each is turned against the next by half a step and they just touch:
// sqrt(1 - (2 R sin(pi/2n))^2) d, with R = 1/(2 sin(pi/n)). For n = 4 that is
// 2^(-1/4) = 0.8409 d (height of the square antiprism, MathWorld). It is 0 for
// fewer than two balloons.
func TouchingPitchMM(balloons int, diameterMM float64) float64 {
	if balloons < 2 || !(diameterMM > 0) {
		return 0
	}
	n := float64(balloons)
	chord := math.Sin(math.Pi/(2*n)) / math.Sin(math.Pi/n)
	return diameterMM * math.Sqrt(1-float64(chord*chord))
}
