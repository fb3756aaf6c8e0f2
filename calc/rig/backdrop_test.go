package rig_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/rig"
)

// TestBackdropBallast is computed by hand from q = rho v²/2 (EN 1991-1-4, rho 1.25) and the flat plate's 1.28 (NASA
// Glenn). 2.4 x 2.2 m in 5 m/s catch 105.6 N, at half height 116.2 N m. With 50 N at 1.2 m it is 176.2 N m, times 1.5
// over half a foot of 0.3 m 880.8 N or 89.8 kg, minus the existing 10 kg.
func TestBackdropBallast(t *testing.T) {
	outdoors, stands := rig.BackdropBallastKG(2400, 2200, 10_000, 5)
	assert.True(t, stands)
	wind := 0.5 * 1.25 * 25 * 1.28 * 2.4 * 2.2
	assert.InDelta(t, math.Ceil(1.5*(wind*1.1+50*1.2)/0.3/9.80665-10), outdoors, 0)
	assert.InDelta(t, 80, outdoors, 0)

	indoors, stands := rig.BackdropBallastKG(2400, 2200, 10_000, 0)
	assert.True(t, stands)
	assert.InDelta(t, math.Ceil(1.5*50*1.2/0.3/9.80665-10), indoors, 0, "people lean on it indoors too")

	_, stands = rig.BackdropBallastKG(2400, 2200, 10_000, rig.HighestWindMPS+0.1)
	assert.False(t, stands, "no weight is safe in that wind")
	_, stands = rig.BackdropBallastKG(math.NaN(), 2200, 10_000, 5)
	assert.False(t, stands)
}
