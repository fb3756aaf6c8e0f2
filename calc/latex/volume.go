package latex

import "math"

// VolumeL is the volume in litres of a round balloon of the diameter; 0 for a
// diameter that is not above zero.
func VolumeL(diameterMM float64) float64 {
	if !(diameterMM > 0) {
		return 0
	}
	return math.Pi / 6 * diameterMM * diameterMM * diameterMM / 1e6
}

// CircumferenceMM is what a tape measure reads round the middle.
func CircumferenceMM(diameterMM float64) float64 { return math.Pi * diameterMM }

// FillPct is the diameter as a percentage of the full diameter of the size, not
// of its volume. 80 to 92 keeps a balloon round and soft (common practice).
// 0 for a diameter that is not above zero.
func (s Size) FillPct(diameterMM float64) float64 {
	if !(s.FullIn > 0 && diameterMM > 0) {
		return 0
	}
	return 100 * diameterMM / s.FullMM()
}
