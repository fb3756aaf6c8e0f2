package latex

// StretchPressurePa is [Skin.PressurePa] for a stretch instead of a diameter.
func (k Skin) StretchPressurePa(stretch float64) float64 {
	if !(k.RadiusMM > 0) {
		return 0
	}
	return k.scalePa() * k.shape(stretch)
}
