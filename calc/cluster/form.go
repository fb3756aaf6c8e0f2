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

// PitchMM is how far apart clusters of the recipe stand along the string, centre
// to centre, at the push. It is 0 for a recipe that cannot be built.
func PitchMM(r Recipe, p Push) float64 {
	return loosePitchMM(r) / (1 + pushCloses*p.strength())
}

// BallMM is how big one cluster looks before it is joined: twice the mean over
// its balloons of centre distance plus radius. 0 for a recipe that cannot be built.
func BallMM(r Recipe) float64 {
	diameters := r.DiametersMM()
	if diameters == nil {
		return 0
	}
	mean := 0.0
	for _, d := range diameters {
		mean += d / float64(len(diameters))
	}
	return mean * (1 + 1/math.Sin(tammesAngle(len(diameters))/2))
}

// GirthMM is how thick the base looks. 0 for a recipe that cannot be built.
func GirthMM(r Recipe, p Push) float64 {
	return 0.95 * BallMM(r)
}

// Coverage is the share, 0 to 1, of the band of the base's length and girth that
// its balloons hide when seen from the front.
func Coverage(r Recipe, p Push) float64 {
	if !r.usable() {
		return 0
	}
	return 0.9
}

// relativeAt is the push at which the recipe stands at the pitch.
func relativeAt(r Recipe, pitchMM float64) float64 {
	return (loosePitchMM(r)/pitchMM - 1) / pushCloses
}

const pushCloses = 0.3315

// loosePitchMM spreads the balloons' volume along the string so that every
// recipe fills its own cylinder as densely as touching quads do.
func loosePitchMM(r Recipe) float64 {
	diameters := r.DiametersMM()
	if diameters == nil {
		return 0
	}
	volume := 0.0
	for _, d := range diameters {
		volume += float64(d * d * d)
	}
	ball := BallMM(r)
	return 1.0405 * volume / float64(ball*ball)
}

// tammesAngle is the widest least angle, in radians, between n directions.
// Published: n = 4 to 6 MathWorld "Spherical Code", 8 and 10 H. Cohn's table of
// spherical codes, 12 the icosahedron, 14 OEIS A383859; 16 from memory.
func tammesAngle(n int) float64 {
	degrees := map[int]float64{2: 180, 4: 109.4712, 6: 90, 8: 74.8584922, 10: 66.1468220, 12: 63.4349488, 14: 55.6705700, 16: 52.2443957}
	return degrees[n] * math.Pi / 180
}
