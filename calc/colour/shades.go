package colour

// Finish is how a balloon's rubber or foil shines.
type Finish string

// The finishes. Any other is shaded as standard.
const (
	Standard Finish = "standard"
	Pastel   Finish = "pastel"
	Pearl    Finish = "pearl"
	Metallic Finish = "metallic"
	Mirror   Finish = "mirror"
	Crystal  Finish = "crystal"
	Printed  Finish = "printed"
)

// Stop is one stop of a radial gradient. Offset 0 is the spot that faces the light, 100 the rim.
type Stop struct {
	OffsetPct  int
	Colour     RGB
	OpacityPct int
}

// Shades returns the 4 to 6 stops that make a circle look like a lit balloon, in the order of their offsets. Pictures
// by eye, no source: the lit spot lies well towards the lamp, so the gradient's focus belongs up to the left.
//
//   - Standard and printed: a gloss that falls off quickly, a shaded rim.
//   - Pastel: matt, hardly lighter or darker than the colour.
//   - Pearl: a broad soft gloss that ends in a faint shade.
//   - Metallic: gloss, a soft dark band, some light at the rim.
//   - Mirror: a hard white gloss, a dark band, bright light at the rim.
//   - Crystal: see-through, with a dense rim that catches the light.
func Shades(c RGB, finish Finish) []Stop {
	profile := shadesOf(finish)
	stops := make([]Stop, len(profile))
	for i, s := range profile {
		stops[i] = Stop{int(s[0]), c.lit(int(s[1])), int(s[2])}
	}
	return stops
}

// shadesOf lists offset, light and opacity in per cent. Light below 0 is shade.
func shadesOf(finish Finish) [][3]int8 {
	switch finish {
	case Pastel:
		return [][3]int8{{0, 14, 100}, {30, 9, 100}, {56, 0, 100}, {100, -16, 100}}
	case Pearl:
		return [][3]int8{{0, 70, 100}, {35, 52, 100}, {65, 12, 100}, {84, -19, 100}, {100, 8, 100}}
	case Metallic:
		return [][3]int8{{0, 78, 100}, {22, 30, 100}, {48, -16, 100}, {62, -30, 100}, {82, -6, 100}, {100, 16, 100}}
	case Mirror:
		return [][3]int8{{0, 100, 100}, {16, 88, 100}, {24, -5, 100}, {58, -54, 100}, {84, -24, 100}, {100, 55, 100}}
	case Crystal:
		return [][3]int8{{0, 80, 70}, {20, 20, 25}, {60, 0, 20}, {82, -16, 60}, {93, 55, 90}, {100, -34, 90}}
	}
	return [][3]int8{{0, 62, 100}, {14, 38, 100}, {36, 0, 100}, {70, -14, 100}, {100, -42, 100}}
}

// lit mixes a colour with white, or with black where the share is below 0.
func (c RGB) lit(pct int) RGB {
	target := 255
	if pct < 0 {
		target, pct = 0, -pct
	}
	mix := func(channel uint8) uint8 { return uint8((int(channel)*(100-pct) + target*pct + 50) / 100) }
	return RGB{mix(c.R), mix(c.G), mix(c.B)}
}
