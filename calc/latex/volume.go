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

// Shares of the full diameter in percent (common practice, no source). From LeastSoftPct to MostSoftPct a balloon is
// round, soft enough to twist, and has room for warmth. From TooFullPct it is hard and pear-shaped and bursts easily.
const (
	LeastSoftPct, MostSoftPct = 80.0, 92.0
	TooFullPct                = 95.0
)

// FillPct returns the diameter as a percentage of the size's full diameter, not of its volume, see [MostSoftPct].
// It is 0 for a diameter of 0 or less.
func (s Size) FillPct(diameterMM float64) float64 {
	if !(s.FullIn > 0 && diameterMM > 0) {
		return 0
	}
	return 100 * diameterMM / s.FullMM()
}
