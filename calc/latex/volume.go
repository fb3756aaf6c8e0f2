package latex

import "math"

// VolumeL returns the volume in litres of a round balloon of the diameter; 0 for a diameter of 0 or less.
func VolumeL(diameterMM float64) float64 {
	if !(diameterMM > 0) {
		return 0
	}
	return math.Pi / 6 * diameterMM * diameterMM * diameterMM / 1e6
}

// CircumferenceMM returns the reading of a tape measure around the middle.
func CircumferenceMM(diameterMM float64) float64 { return math.Pi * diameterMM }

// FillPct returns the diameter as a percentage of the size's full diameter, not of its volume. 80 to 92 keeps a balloon
// round and soft (common practice). It is 0 for a diameter of 0 or less.
func (s Size) FillPct(diameterMM float64) float64 {
	if !(s.FullIn > 0 && diameterMM > 0) {
		return 0
	}
	return 100 * diameterMM / s.FullMM()
}
