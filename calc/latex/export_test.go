package latex

import "math"

// StretchPressurePa is [Skin.PressurePa] at a stretch instead of a diameter.
func (k Skin) StretchPressurePa(stretch float64) float64 {
	if !(k.RadiusMM > 0) {
		return 0
	}
	return k.scalePa() * k.shape(stretch)
}

// DiameterMM is the diameter of a round balloon that holds the volume, the
// inverse of [VolumeL]; 0 for a volume that is not above zero.
func DiameterMM(volumeL float64) float64 {
	if !(volumeL > 0) {
		return 0
	}
	return math.Cbrt(volumeL * 1e6 * 6 / math.Pi)
}
