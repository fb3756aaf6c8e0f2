package cluster

import "math"

// SideBySideReach is how far, in mean balloon diameters, a string's clusters reach into those of the next if every
// other one is turned by half a step. For touching quads side by side the strings are 1/√2 + 1/2 + √3/2 = 2.0731
// diameters apart and a quad is 1 + √2 = 2.4142 wide; the difference is 0.3411 (by geometry; other recipes use the
// same, from memory).
const SideBySideReach = 0.34108

// wallFilling is the largest part of a wall that balloons fill: random close packing, 0.64 (Berryman, Physical Review A
// 27, 1983, 1053).
const wallFilling = 0.64

// SideBySideMM returns the distance between the upright strings of a wall that interlock by reach, in mean diameters
// ([SideBySideReach]). Girth is a mean, and the large balloons of a mixed recipe stick out. So the wall, as deep as its
// girth or two of its largest balloons, must have room for all balloons at a filling of 0.64. crowded reports whether
// this room decided. It is 0 for a recipe that cannot be built.
func SideBySideMM(r Recipe, p Push, reach float64) (apartMM float64, crowded bool) {
	shown := Measure(r, p)
	if shown.PitchMM == 0 {
		return 0, false
	}
	largest, sum, cubes := 0.0, 0.0, 0.0
	diameters := r.DiametersMM()
	for _, d := range diameters {
		largest = max(largest, d)
		sum += d
		cubes += float64(d * d * d)
	}
	nested := shown.GirthMM - float64(reach*sum)/float64(len(diameters))
	needed := math.Pi / 6 * cubes / (wallFilling * shown.PitchMM * max(shown.GirthMM, 2*largest))
	return max(nested, needed), needed > nested
}
