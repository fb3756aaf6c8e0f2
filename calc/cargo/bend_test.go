package cargo_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cargo"
)

func ExampleLongestSectionMM() {
	longest, err := cargo.LongestSectionMM(estate, 500)
	fmt.Println(longest, err)
	// Output: 1876 <nil>
}

func TestLongestSection(t *testing.T) {
	for _, row := range []struct {
		name            string
		a, b, c, across float64
		want, near      float64
	}{
		{"two thirds of a half circle's chord: R = 1000, 60 degrees each way", 2 * 1100 * math.Sqrt(3) / 2, 1100 - 450, 200,
			200, math.Pi * 2000 / 3, 0.005 * math.Pi * 2000 / 3},
		{"a tube as thick as the box lies straight", 2000, 500, 500, 500, 2000, 0},
		{"too thick", 2000, 600, 499, 500, 0, 0},
		// R = 1000 on the centre line: 2 (R + t/2) along, R + t/2 across, pi R long.
		{"half a circle in half a square", 2200, 1100, 200, 200, math.Pi * 1000, 0.005 * math.Pi * 1000},
		// A half circle of radius 465 would be 1461 long, but its radius is smaller than the section's thickness.
		{"no tighter than its thickness", 1430, 715, 500, 500, 1430, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			longest, err := cargo.LongestSectionMM(cargo.Space{LengthMM: row.a, WidthMM: row.b, HeightMM: row.c}, row.across)
			require.NoError(t, err)
			assert.InDelta(t, row.want, longest, row.near)
		})
	}
}

// TestBentSectionsLieInside walks along the edge of a bent tube. Every section that fits must be inside the box, point
// by point.
func TestBentSectionsLieInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(800, 3000).Draw(t, "a")
		b := rapid.Float64Range(800, 3000).Draw(t, "b")
		across := rapid.Float64Range(100, 400).Draw(t, "across")
		// The room is so low that the section can only lie flat on the floor.
		space := cargo.Space{LengthMM: a, WidthMM: b, HeightMM: across * 1.001}
		longest, err := cargo.LongestSectionMM(space, across)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, longest, math.Floor(math.Max(a, b)))
		if straightest := math.Hypot(a, b); longest <= straightest {
			return
		}
		assert.True(t, liesBent(a, b, across, longest) || liesBent(b, a, across, longest), "%g mm lies nowhere", longest)
	})
}

// liesBent searches for a radius at which the tube's edge stays inside a x b.
func liesBent(a, b, across, length float64) bool {
	for radius := across; radius < 50_000; radius *= 1.002 {
		angle := length / radius
		if angle > math.Pi*1.0001 {
			continue
		}
		var lowX, highX, lowY, highY = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for i := range 61 {
			sin, cos := math.Sincos(angle * (float64(i)/60 - 0.5))
			for _, edge := range []float64{radius - across/2, radius + across/2} {
				lowX, highX = math.Min(lowX, edge*sin), math.Max(highX, edge*sin)
				lowY, highY = math.Min(lowY, edge*cos), math.Max(highY, edge*cos)
			}
		}
		if highX-lowX <= a*1.003 && highY-lowY <= b*1.003 {
			return true
		}
	}
	return false
}

func TestSectionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		space := drawSpace(t)
		across := rapid.Float64Range(50, 800).Draw(t, "across")
		longest, err := cargo.LongestSectionMM(space, across)
		require.NoError(t, err)
		thinner, err := cargo.LongestSectionMM(space, across*0.9)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, thinner, longest, "a thinner section must not be shorter")
		turned := space
		turned.LengthMM, turned.WidthMM, turned.HeightMM = space.HeightMM, space.LengthMM, space.WidthMM
		same, err := cargo.LongestSectionMM(turned, across)
		require.NoError(t, err)
		assert.InDelta(t, longest, same, 0, "height and width must be interchangeable")
	})
}
