package latex

import "math"

// VolumeL returns the volume in litres of a sphere of the diameter; 0 for a diameter of 0 or less. A balloon near its
// full size holds more, see [Size.VolumeL].
func VolumeL(diameterMM float64) float64 {
	if !(diameterMM > 0) {
		return 0
	}
	return math.Pi / 6 * diameterMM * diameterMM * diameterMM / 1e6
}

// DiameterMM returns the diameter of a sphere of the volume, the inverse of [VolumeL]; 0 for a volume of 0 or less.
func DiameterMM(volumeL float64) float64 {
	if !(volumeL > 0) {
		return 0
	}
	return math.Cbrt(volumeL * 1e6 * 6 / math.Pi)
}

// LeastGas and MostGas bound the measured gas of a balloon divided by the usual. A value beyond them was misread.
const LeastGas, MostGas = 0.5, 2

// RoundPct is the share of the full diameter up to which a balloon is a sphere. Beyond that it stretches towards the
// neck, and it is a pear when full. From memory: décor filled to 80 to 92 % looks round.
const RoundPct = 85.0

// VolumeL returns the gas in litres that a balloon of the size holds when it is diameterMM wide: a sphere up to
// [RoundPct], FullL when full. In between the part above the sphere grows with the square of the diameter past
// RoundPct. Past full it keeps its shape. It never falls with the diameter. It is 0 for a diameter of 0 or less.
func (s Size) VolumeL(diameterMM float64) float64 {
	own := s.OwnGas
	if !(own > 0) {
		own = 1
	}
	return VolumeL(diameterMM) * s.pear().ratio(diameterMM) * own
}

// PearL returns how much more a balloon of the size holds than the sphere of that diameter, in litres: 0 up to
// [RoundPct]. OwnGas does not count.
func (s Size) PearL(diameterMM float64) float64 {
	return VolumeL(diameterMM) * (s.pear().ratio(diameterMM) - 1)
}

// pear is how a balloon's shape leaves the sphere: not up to roundMM, and at fullMM by excess, which is volume over
// that of the sphere less 1. The zero pear is a sphere.
type pear struct{ roundMM, fullMM, excess float64 }

func (s Size) pear() pear {
	if s.Modelling() || !(s.FullL > 0) || !(s.FullIn > 0) {
		return pear{}
	}
	return pear{RoundPct / 100 * s.FullMM(), s.FullMM(), max(0, s.FullL/VolumeL(s.FullMM())-1)}
}

// ratio returns the volume over that of the sphere of the same diameter.
func (p pear) ratio(diameterMM float64) float64 {
	if !(p.excess > 0 && diameterMM > p.roundMM) {
		return 1
	}
	part := min(1, (diameterMM-p.roundMM)/(p.fullMM-p.roundMM))
	return 1 + float64(p.excess*part*part)
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
