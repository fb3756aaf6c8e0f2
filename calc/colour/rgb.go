package colour

import (
	"strconv"

	"garlandry/calc/exact"
)

// RGB is an sRGB colour.
type RGB struct{ R, G, B uint8 }

// Parse reads "#rrggbb" in either case. It reports false for anything else.
func Parse(text string) (RGB, bool) {
	if len(text) != 7 || text[0] != '#' || text[1] == '+' {
		return RGB{}, false
	}
	n, err := strconv.ParseUint(text[1:], 16, 32)
	return RGB{uint8(n >> 16), uint8(n >> 8), uint8(n)}, err == nil
}

// String writes "#rrggbb" in lower case.
func (c RGB) String() string {
	return "#" + strconv.FormatUint(1<<24|uint64(c.R)<<16|uint64(c.G)<<8|uint64(c.B), 16)[1:]
}

// linear returns the light of one channel, 0 to 1, by IEC 61966-2-1.
func linear(channel uint8) float64 {
	x := float64(channel) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return power((x+0.055)/1.055, 2.4)
}

// channel is the inverse of linear, rounded to the nearest. Light outside 0 to 1 is cut off.
func channel(light float64) uint8 {
	switch {
	case light <= 0:
		return 0
	case light >= 1:
		return 255
	case light <= 0.0031308:
		return uint8(float64(light*12.92*255) + 0.5)
	}
	return uint8(float64((float64(1.055*power(light, 1/2.4))-0.055)*255) + 0.5)
}

// power returns x to the y for a positive x, the same on every machine.
func power(x, y float64) float64 { return exact.Exp(y * exact.Log(x)) }
