package cluster_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
)

// TestStringsReachIntoEachOtherAsTouchingQuadsDo checks two columns of touching quads, every other quad turned by half
// a step. Where they meet, a balloon of one lies between two of the other, and trigonometry puts the columns 1/sqrt 2 +
// 1/2 + sqrt 3 / 2 diameters apart; alone each looks 2.1431 wide (see TestTouchingQuads of calc/softsphere).
func TestStringsReachIntoEachOtherAsTouchingQuadsDo(t *testing.T) {
	reach := 2.1431 - (1/math.Sqrt2 + 0.5 + math.Sqrt(3)/2)
	assert.InDelta(t, reach, cluster.SideBySideReach, 5e-4)
}

// TestMixedWallsArePackedAtRandom checks that a wall of several sizes, as deep as two of its largest balloons or as it
// looks wide, is filled like a random packing: 0.60 loose (Scott, Nature 188, 1960, 908) to 0.64 close (Berryman,
// Physical Review A 27, 1983, 1053), at every push.
func TestMixedWallsArePackedAtRandom(t *testing.T) {
	packedOnes := 0
	for _, text := range []string{"1x11@10 + 1x24@22", "1x5@4.5 + 1x18@16", "2x5@4 + 2x11@10 + 1x24@22",
		"2x11@10 + 1x18@16", "2x11@10 + 2x16@12"} {
		for _, relative := range []float64{0.5, 1, 1.5, 2} {
			r, push := recipe(t, text), cluster.Push{Relative: relative}
			apart, packed := cluster.SideBySideMM(r, push, cluster.SideBySideReach)
			balls, largest := 0.0, 0.0
			for _, d := range r.DiametersMM() {
				balls += math.Pi / 6 * math.Pow(d, 3)
				largest = max(largest, d)
			}
			filled := balls / (apart * cluster.PitchMM(r, push) * max(cluster.WidthMM(r, push), 2*largest))
			assert.True(t, filled > 0.5999 && filled < 0.6401, "%s at %g: %.4f", text, relative, filled)
			if packed {
				packedOnes++
			}
		}
	}
	require.Positive(t, packedOnes)
}
