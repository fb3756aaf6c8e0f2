package softsphere_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/softsphere"
)

// TestOneRow checks touching balls in a row by plane geometry: seen from the side they are pi/4 of a diameter wide on
// average and a diameter at their widest, and a disc of radius r hides h sqrt(r² - h²) + r² asin(h/r) of the
// band from the string to h.
func TestOneRow(t *testing.T) {
	row := softsphere.Rest{Clusters: 3, LengthMM: 300}
	for k := range 3 {
		row.Balloons = append(row.Balloons, softsphere.Balloon{Z: 50 + 100*float64(k), Radius: 50, Cluster: k})
	}
	assert.InEpsilon(t, 100*math.Pi/4, row.WidthMM(), 0.005)
	assert.InEpsilon(t, 100, row.WidestMM(), 0.005)
	h := 50 * math.Pi / 4
	hidden := 2 * (h*math.Sqrt(2500-h*h) + 2500*math.Asin(h/50))
	assert.InDelta(t, hidden/(100*2*h), row.Coverage(), 0.01)
}

// TestWidthWrapsAndHalves checks that half as many balls on the same length look half as wide, even if a ball crosses
// the repeat.
func TestWidthWrapsAndHalves(t *testing.T) {
	whole := softsphere.Rest{
		Clusters: 2,
		LengthMM: 200,
		Balloons: []softsphere.Balloon{{Z: 0, Radius: 50}, {Z: 100, Radius: 50}},
	}
	half := softsphere.Rest{Clusters: 1, LengthMM: 200, Balloons: []softsphere.Balloon{{Z: 0, Radius: 50}}}
	assert.InEpsilon(t, whole.WidthMM()/2, half.WidthMM(), 0.005)
	assert.InEpsilon(t, 100*math.Pi/4, whole.WidthMM(), 0.005)
}

// TestCoverageCountsOverlapsOnce checks that two discs on top of each other hide no more than one.
func TestCoverageCountsOverlapsOnce(t *testing.T) {
	one := softsphere.Rest{Clusters: 1, LengthMM: 200, Balloons: []softsphere.Balloon{{Z: 90, Radius: 50}}}
	two := softsphere.Rest{
		Clusters: 1,
		LengthMM: 200,
		Balloons: []softsphere.Balloon{{Z: 90, Radius: 50}, {Z: 90, Radius: 50}},
	}
	assert.InDelta(t, one.Coverage(), two.Coverage(), 1e-9)
}

// TestTouchingQuads checks a string of touching quads, each turned by half a step against the next, as far apart as the
// height of the square antiprism with unit edge, 2^(-1/4) (MathWorld). It is 1 + sqrt 2 at its widest, across the
// corners of a quad, which the views miss by 11.25 degrees. Its outline is 2.1431 wide on average over all views, from
// integrating the chords of its discs numerically. So two such strings, 2.0731 apart, stand 0.07 closer than they look
// wide.
func TestTouchingQuads(t *testing.T) {
	apart := math.Pow(2, -0.25)
	// The views lie every 22.5 degrees. Quads that are turned by 11.25 degrees are seen from no special side.
	strung := softsphere.Rest{Clusters: 12, LengthMM: 12 * apart}
	for k := range 12 {
		for q := range 4 {
			turn := (float64(q) + float64(k%2)/2 + 1.0/8) * math.Pi / 2
			strung.Balloons = append(strung.Balloons, softsphere.Balloon{X: math.Cos(turn) * math.Sqrt2 / 2,
				Y: math.Sin(turn) * math.Sqrt2 / 2, Z: apart * float64(k), Radius: 0.5, Cluster: k})
		}
	}
	assert.InEpsilon(t, 1+math.Sqrt2*math.Cos(math.Pi/16), strung.WidestMM(), 0.005)
	assert.InEpsilon(t, 2.1431, strung.WidthMM(), 0.01)
	const angles, stations = 90, 200
	mean := 0.0
	for a := range angles {
		for s := range stations {
			at, low, high := (float64(s)+0.5)/stations*2*apart, math.Inf(1), math.Inf(-1)
			for k := -2; k <= 4; k++ {
				chord := 0.25 - math.Pow(at-float64(k)*apart, 2)
				for q := 0; q < 4 && chord > 0; q++ {
					x := math.Sqrt2 / 2 * math.Cos((float64(q)+float64(k&1)/2+float64(a)/angles)*math.Pi/2)
					low, high = min(low, x-math.Sqrt(chord)), max(high, x+math.Sqrt(chord))
				}
			}
			mean += (high - low) / angles / stations
		}
	}
	assert.InDelta(t, 2.1431, mean, 5e-4)
	assert.InDelta(t, 0.07, mean-(math.Sqrt2/2+0.5+math.Sqrt(3)/2), 5e-4)
}
