package latex

import "math"

// StretchPressurePa is [Skin.PressurePa] for a stretch instead of a diameter.
func (k Skin) StretchPressurePa(stretch float64) float64 {
	if !(k.RadiusMM > 0) {
		return 0
	}
	return k.scalePa() * k.shape(stretch)
}

// DiameterMM returns the diameter of a round balloon with that volume, the inverse of [VolumeL]; 0 for a volume of 0 or
// less.
func DiameterMM(volumeL float64) float64 {
	if !(volumeL > 0) {
		return 0
	}
	return math.Cbrt(volumeL * 1e6 * 6 / math.Pi)
}
