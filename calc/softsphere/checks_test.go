package softsphere_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/softsphere"
)

// TestTouchingRings checks the pitch at which flat rings, each turned against the next, first touch. By trigonometry it
// is sqrt(1 - (2 R sin(pi/2n))^2) with R = 1/(2 sin(pi/n)); n = 4 is the height of the square antiprism with unit edge,
// 2^(-1/4) (MathWorld, Square Antiprism); n = 3 is sqrt(2/3), hexagonal close packing. Within 1 %.
func TestTouchingRings(t *testing.T) {
	for _, c := range []struct {
		balloons int
		pitch    float64
	}{{2, 0.707107}, {3, 0.816497}, {4, 0.840896}, {5, 0.850651}, {6, 0.855600}, {8, 0.860296}} {
		t.Run(fmt.Sprintf("%d balloons", c.balloons), func(t *testing.T) {
			pitch, err := softsphere.FlatRings(c.balloons, 241.3)
			require.NoError(t, err)
			assert.InEpsilon(t, c.pitch, pitch/241.3, 0.01)
		})
	}
	_, err := softsphere.FlatRings(0, 241.3)
	assert.ErrorIs(t, err, softsphere.ErrSpheres)
}

// TestHeapIsRandomClosePacked checks a jammed heap against random close packing,
// 0.64 +- 0.02 (Berryman, Physical Review A 27, 1053).
func TestHeapIsRandomClosePacked(t *testing.T) {
	for _, seed := range []uint64{1, 2, 3} {
		fraction, err := softsphere.HeapFraction(200, seed)
		require.NoError(t, err)
		assert.InDelta(t, 0.64, fraction, 0.02, "seed %d", seed)
	}
	_, err := softsphere.HeapFraction(3, 1)
	assert.ErrorIs(t, err, softsphere.ErrSpheres)
}
