package colour_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/colour"
)

var finishes = []colour.Finish{
	colour.Standard, colour.Pastel, colour.Pearl, colour.Metallic, colour.Mirror, colour.Crystal,
}

// profile is the lightness along the radius of a balloon on a page of one grey, as SVG draws the gradient: it
// interpolates channels and opacity linearly.
func profile(stops []colour.Stop, page float64) (light [101]float64) {
	at := 0
	for offset := range light {
		for at+2 < len(stops) && offset > stops[at+1].OffsetPct {
			at++
		}
		a, b := stops[at], stops[at+1]
		share := float64(offset-a.OffsetPct) / float64(b.OffsetPct-a.OffsetPct)
		between := func(x, y float64) float64 { return x + float64(share*(y-x)) }
		opaque := between(float64(a.OpacityPct), float64(b.OpacityPct)) / 100
		mix := func(x, y uint8) uint8 {
			return uint8(math.Round(float64(opaque*between(float64(x), float64(y))) + float64((1-opaque)*page)))
		}
		light[offset] = colour.RGB{R: mix(a.Colour.R, b.Colour.R), G: mix(a.Colour.G, b.Colour.G),
			B: mix(a.Colour.B, b.Colour.B)}.Lab().L
	}
	return light
}

// apart is the root of the mean square of what two profiles differ, every part of the disc counting by its area.
func apart(a, b [101]float64) float64 {
	sum, area := 0.0, 0.0
	for offset := range a {
		weight := float64(offset)
		sum += float64(weight * (a[offset] - b[offset]) * (a[offset] - b[offset]))
		area += weight
	}
	return math.Sqrt(sum / area)
}

// TestFinishesDifferInGrey checks that no two finishes of a colour are alike in a print without colour: on white and on
// a dark page, for black, white and palette colours. 4 in lightness is about four just noticeable steps (from memory).
func TestFinishesDifferInGrey(t *testing.T) {
	const least = 4.0
	worst, where := math.Inf(1), ""
	for _, text := range []string{"#000000", "#ffffff", "#808080", "#e5604d", "#1f3a5f", "#d9c3a0", "#f0c9c2", "#b28a3c",
		"#ffff00", "#0000ff", "#d8b400", "#2e7d4f", "#c8c8c8", "#111111"} {
		c, is := colour.Parse(text)
		assert.True(t, is)
		for _, page := range []float64{255, 0x16} {
			for i, a := range finishes {
				for _, b := range finishes[:i] {
					far := apart(profile(colour.Shades(c, a), page), profile(colour.Shades(c, b), page))
					assert.GreaterOrEqual(t, far, least, "%s and %s of %s on %v", a, b, text, page)
					if far < worst {
						worst, where = far, string(a)+" and "+string(b)+" of "+text
					}
				}
			}
		}
	}
	t.Logf("nearest: %.1f, %s", worst, where)
}

func TestShadesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawColour(t, "colour")
		for _, finish := range append(finishes, colour.Printed, "unknown") {
			stops := colour.Shades(c, finish)
			assert.GreaterOrEqual(t, len(stops), 4)
			assert.LessOrEqual(t, len(stops), 6)
			assert.Zero(t, stops[0].OffsetPct)
			assert.Equal(t, 100, stops[len(stops)-1].OffsetPct)
			for i, s := range stops {
				assert.True(t, s.OpacityPct > 0 && s.OpacityPct <= 100 && (finish == colour.Crystal) == (s.OpacityPct < 100))
				assert.True(t, i == 0 || s.OffsetPct > stops[i-1].OffsetPct)
			}
		}
		standard := colour.Shades(c, colour.Standard)
		middle := standard[len(standard)/2].Colour
		assert.Less(t, colour.Difference(c.Lab(), middle.Lab()), 12.0)
		assert.Equal(t, standard, colour.Shades(c, colour.Printed))
	})
}
