package cluster

import "math"

// SideBySideReach is how far, in mean balloon diameters, a string's clusters reach into those of the next if every
// other one is turned by half a step. For touching quads side by side the strings are 1/√2 + 1/2 + √3/2 = 2.0731
// diameters apart, and a string of them looks 2.1431 wide; the difference is 0.07 (by geometry; other recipes use the
// same, from memory).
const SideBySideReach = 0.07

// The parts of a wall that balloons of several sizes fill, from loose to close random packing of balls: 0.60 and 0.637
// (Scott, Nature 188, 1960, 908), and 0.64 (Berryman, Physical Review A 27, 1983, 1053).
const (
	wallLoose = 0.60
	wallClose = 0.64
)

// SideBySideMM returns the distance between the upright strings of a wall that interlock by reach, in mean diameters
// ([SideBySideReach]): their visible width less the reach. The wall, as deep as its visible width or two of its largest
// balloons, must have room for all balloons, packed closely. Balloons of several sizes lie at random, so their strings
// move in until they are packed loosely. packed reports whether this room decided. It is 0 for a recipe that cannot be
// built.
func SideBySideMM(r Recipe, p Push, reach float64) (apartMM float64, packed bool) {
	shown := Measure(r, p)
	if shown.PitchMM == 0 {
		return 0, false
	}
	largest, cubes := 0.0, 0.0
	for _, d := range r.DiametersMM() {
		largest = max(largest, d)
		cubes += float64(d * d * d)
	}
	nested := shown.WidthMM - float64(reach*meanMM(r))
	solid := math.Pi / 6 * cubes / (shown.PitchMM * max(shown.WidthMM, 2*largest))
	apartMM = max(nested, solid/wallClose)
	if len(bySize(r)) > 1 {
		apartMM = min(apartMM, solid/wallLoose)
	}
	return apartMM, apartMM != nested
}
