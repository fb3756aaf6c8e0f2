package colour_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/colour"
)

type matrix [3][3]float64

func (a matrix) times(b matrix) (product matrix) {
	for i := range a {
		for j := range a {
			for k := range a {
				product[i][j] += float64(a[i][k] * b[k][j])
			}
		}
	}
	return product
}

// inverse is the adjugate over the determinant.
func (a matrix) inverse() (inverse matrix) {
	minor := func(i, j int) float64 {
		return float64(a[(i+1)%3][(j+1)%3]*a[(i+2)%3][(j+2)%3]) - float64(a[(i+1)%3][(j+2)%3]*a[(i+2)%3][(j+1)%3])
	}
	det := 0.0
	for j := range a {
		det += float64(a[0][j] * minor(0, j))
	}
	for i := range a {
		for j := range a {
			inverse[j][i] = minor(i, j) / det
		}
	}
	return inverse
}

// seenByPaper computes with the three matrices of Viénot, Brettel and Mollon (1999), their figures from memory.
func seenByPaper(c colour.RGB, sight colour.Sight) [3]float64 {
	cones := matrix{{17.8824, 43.5161, 4.11935}, {3.45565, 27.1554, 3.86714}, {0.0299566, 0.184309, 1.46709}}
	lost := matrix{{0, 2.02344, -2.52581}, {0, 1, 0}, {0, 0, 1}}
	if sight == colour.Deuteranopia {
		lost = matrix{{1, 0, 0}, {0.494207, 0, 1.24827}, {0, 0, 1}}
	}
	all := cones.inverse().times(lost).times(cones)
	var seen [3]float64
	for i, row := range all {
		light := 0.0
		for j, channel := range [3]uint8{c.R, c.G, c.B} {
			x := float64(channel) / 255
			if x <= 0.04045 {
				x /= 12.92
			} else {
				x = math.Pow((x+0.055)/1.055, 2.4)
			}
			light += float64(row[j] * x)
		}
		light = min(max(light, 0), 1)
		if light <= 0.0031308 {
			seen[i] = light * 12.92 * 255
		} else {
			seen[i] = (float64(1.055*math.Pow(light, 1/2.4)) - 0.055) * 255
		}
	}
	return seen
}

func TestSeen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, sight := drawColour(t, "colour"), colour.Sight(rapid.IntRange(0, 1).Draw(t, "sight"))
		seen := c.Seen(sight)
		want := seenByPaper(c, sight)
		assert.InDelta(t, want[0], float64(seen.R), 0.6) // rounded, and the matrices' last digits
		assert.InDelta(t, want[1], float64(seen.G), 0.6)
		assert.InDelta(t, want[2], float64(seen.B), 0.6)
		assert.Equal(t, seen.R, seen.G, "only yellows, greys and blues are left")
		assert.Equal(t, seen, seen.Seen(sight), "seeing it again changes nothing")
		grey := colour.RGB{R: c.R, G: c.R, B: c.R}
		assert.Equal(t, grey, grey.Seen(sight), "greys stay")
	})
}

// TestSeenConfuses checks what the words mean: red and green of the right lightness look alike, to others they differ.
func TestSeenConfuses(t *testing.T) {
	red, green := colour.RGB{R: 0xc8, G: 0x50, B: 0x50}, colour.RGB{R: 0x60, G: 0x88, B: 0x4c}
	assert.Greater(t, colour.Difference(red.Lab(), green.Lab()), 40.0)
	assert.Less(t,
		colour.Difference(red.Seen(colour.Deuteranopia).Lab(), green.Seen(colour.Deuteranopia).Lab()), 12.0)
	pure := colour.RGB{R: 255}
	assert.Less(t, pure.Seen(colour.Protanopia).Lab().L, pure.Seen(colour.Deuteranopia).Lab().L,
		"red looks darker without the long cones")
}
