package cluster_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/softsphere"
)

// TestEstimatedPitchIsNear draws recipes that the table does not have. Half of the pitches must be within 4 % and 19 of
// 20 within 12 % of relaxing the recipes themselves at the standard push.
func TestEstimatedPitchIsNear(t *testing.T) {
	recipes := 40
	if testing.Short() {
		recipes = 8
	}
	standard := standardShare(t)
	draw := rand.New(rand.NewPCG(2027, 12))
	var off []float64
	for len(off) < recipes {
		r := usual(draw, 3+draw.IntN(2), cluster.MaxDuplets)
		if !cluster.Estimated(r) {
			continue
		}
		own, err := softsphere.Typical(r.DiametersMM(), standard)
		require.NoError(t, err)
		off = append(off, abs(cluster.PitchMM(r, cluster.StandardPush())/own.PitchMM-1))
	}
	_, half, most := spread(off)
	t.Logf("half within %.1f %%, 19 of 20 within %.1f %%", 100*half, 100*most)
	assert.LessOrEqual(t, half, 0.04)
	if !testing.Short() { // of few recipes, most is the worst
		assert.LessOrEqual(t, most, 0.12)
	}
}
