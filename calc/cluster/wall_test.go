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
// 1/2 + sqrt 3 / 2 diameters apart; alone each is 1 + sqrt 2 wide.
func TestStringsReachIntoEachOtherAsTouchingQuadsDo(t *testing.T) {
	reach := 1 + math.Sqrt2 - (1/math.Sqrt2 + 0.5 + math.Sqrt(3)/2)
	assert.InDelta(t, reach, cluster.SideBySideReach, 1e-5)
}

// TestCrowdedWallsAreClosePackedAtRandom checks that if room decides, a wall as deep as two of its largest balloons is
// filled like random close packing: 0.64 (Berryman, Physical Review A 27, 1983, 1053).
func TestCrowdedWallsAreClosePackedAtRandom(t *testing.T) {
	push := cluster.StandardPush()
	crowdedOnes := 0
	for _, text := range []string{"1x11@10 + 1x24@22", "1x5@4.5 + 1x18@16", "2x5@4 + 2x11@10 + 1x24@22"} {
		r := recipe(t, text)
		apart, crowded := cluster.SideBySideMM(r, push, cluster.SideBySideReach)
		if !crowded {
			continue
		}
		crowdedOnes++
		balls, largest := 0.0, 0.0
		for _, d := range r.DiametersMM() {
			balls += math.Pi / 6 * math.Pow(d, 3)
			largest = max(largest, d)
		}
		deep := max(cluster.GirthMM(r, push), 2*largest)
		assert.InEpsilon(t, 0.64, balls/(apart*cluster.PitchMM(r, push)*deep), 0.005, text)
	}
	require.Positive(t, crowdedOnes)
}
