package cluster_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
)

// TestAccentsAreTheFewest checks that one accent fewer does not reach the wanted cover.
func TestAccentsAreTheFewest(t *testing.T) {
	accent := recipe(t, "2x5@4.5")
	rapid.Check(t, func(t *rapid.T) {
		base := anyRecipe(t)
		push := cluster.StandardPush()
		length := rapid.Float64Range(200, 20_000).Draw(t, "length")
		wished := rapid.Float64Range(0, cluster.MostCovered).Draw(t, "wished")
		got := cluster.Accents(length, base, accent, push, wished)
		assert.GreaterOrEqual(t, got.After, got.Before)
		if got.Accents == 0 {
			assert.LessOrEqual(t, wished, got.Before+1e-3)
			return
		}
		assert.GreaterOrEqual(t, got.After, wished-1e-4)
		fewer := cluster.AccentsCover(length, base, accent, push, got.Accents-1)
		assert.Less(t, fewer.After, wished)
		assert.Equal(t, got, cluster.AccentsCover(length, base, accent, push, got.Accents))
	})
}

// TestScatteredDiscsHideAsTheBooleanModelSays throws discs at random on a repeating strip, with its own generator, and
// compares the hidden share with the Boolean model.
func TestScatteredDiscsHideAsTheBooleanModelSays(t *testing.T) {
	base, accent := recipe(t, "2x11@9.5"), recipe(t, "2x5@4.5")
	push, length := cluster.StandardPush(), 6000.0
	width, radius := cluster.WidthMM(base, push), cluster.BallSeenMM(accent)/2
	const accents = 80
	state := uint64(42)
	unit := func() float64 {
		state = state*6364136223846793005 + 1442695040888963407
		return float64(state>>11) / (1 << 53)
	}
	var discs [accents][2]float64
	hidden, points := 0, 0
	for range 400 {
		for i := range discs {
			discs[i] = [2]float64{unit() * length, unit() * width}
		}
		for range 500 {
			points++
			x, y := unit()*length, unit()*width
			for _, d := range discs {
				if math.Hypot(math.Remainder(x-d[0], length), math.Remainder(y-d[1], width)) < radius {
					hidden++
					break
				}
			}
		}
	}
	left := 1 - float64(hidden)/float64(points)
	told := cluster.AccentsCover(length, base, accent, push, accents)
	require.Greater(t, told.After, told.Before)
	assert.InDelta(t, left, (1-told.After)/(1-told.Before), 0.005, "seed 42")
}

func TestAccentsWhereNothingIsWished(t *testing.T) {
	base, accent := recipe(t, "3x11@10"), recipe(t, "2x5@4.5")
	push := cluster.StandardPush()
	assert.Zero(t, cluster.Accents(3048, base, accent, push, 0.5).Accents, "the base alone hides more")
	assert.Zero(t, cluster.Accents(0, base, accent, push, 0.99).Accents, "no base")
	assert.Zero(t, cluster.Accents(3048, nil, accent, push, 0.99).Accents)
	assert.Zero(t, cluster.Accents(3048, base, nil, push, 0.99).Accents)
	assert.Zero(t, cluster.Accents(3048, base, accent, push, math.NaN()).Accents)
	assert.Equal(t, cluster.Accents(3048, base, accent, push, 1),
		cluster.Accents(3048, base, accent, push, cluster.MostCovered))
}
