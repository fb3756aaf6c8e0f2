package cluster_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
)

func ExampleSubstitute() {
	mixed, _ := cluster.ParseRecipe("2x11@10 + 1x18@16")
	stands, match, err := cluster.Substitute(mixed, 18, cluster.Part{SizeIn: 11, ToIn: 10}, 4)
	fmt.Println(stands, match.Duplets, err)
	// Output: 4x11@10 2 <nil>
}

func TestMatchSizeOfItself(t *testing.T) {
	match, err := cluster.MatchSize(recipe(t, "3x11@10"), cluster.Part{SizeIn: 11, ToIn: 10}, 4)
	require.NoError(t, err)
	assert.Equal(t, 3, match.Duplets)
	assert.InDelta(t, 100, match.ClosesPct, 1e-9, "there is no difference to close")
	assert.InDelta(t, match.TargetMM, match.SeenMM, 1e-9)
}

func TestMatchRefuses(t *testing.T) {
	mixed := recipe(t, "2x11@10 + 1x18@16")
	eleven := cluster.Part{SizeIn: 11, ToIn: 10}
	_, err := cluster.MatchSize(nil, eleven, 4)
	assert.ErrorIs(t, err, cluster.ErrRecipe, "no target")
	_, err = cluster.MatchSize(mixed, cluster.Part{SizeIn: 13, ToIn: 10}, 4)
	assert.ErrorIs(t, err, cluster.ErrRecipe, "no such size")
	_, err = cluster.MatchSize(mixed, eleven, 0)
	assert.ErrorIs(t, err, cluster.ErrRecipe, "no duplets allowed")
	_, _, err = cluster.Substitute(mixed, 24, eleven, 4)
	assert.ErrorIs(t, err, cluster.ErrRecipe, "nothing to replace")
	_, _, err = cluster.Substitute(mixed, 18, eleven, 2)
	assert.ErrorIs(t, err, cluster.ErrRecipe, "no room beside the remaining duplets")
}

// TestClosesIsAShareOfTheWay checks ClosesPct: the change from duplet for duplet to the substitute, as a share of the
// change to the target, in sizes as seen.
func TestClosesIsAShareOfTheWay(t *testing.T) {
	with := cluster.Part{SizeIn: 11, ToIn: 10}
	match, err := cluster.MatchSize(recipe(t, "2x11@10 + 1x18@16"), with, 4)
	require.NoError(t, err)
	from, stands, to := cluster.BallSeenMM(recipe(t, "3x11@10")), cluster.BallSeenMM(
		recipe(t, "4x11@10"),
	), cluster.BallSeenMM(recipe(t, "2x11@10 + 1x18@16"))
	require.True(t, from < stands && stands < to)
	assert.InDelta(t, 100*(stands-from)/(to-from), match.ClosesPct, 1e-9)
}

// TestMatchIsNearest checks that no other number of duplets comes closer.
func TestMatchIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		target, with := anyRecipe(t), cluster.Part{SizeIn: 11, ToIn: 10}
		most := rapid.IntRange(1, 8).Draw(t, "most")
		match, err := cluster.MatchSize(target, with, most)
		require.NoError(t, err)
		assert.True(t, match.Duplets >= 1 && match.Duplets <= most)
		assert.True(t, match.ClosesPct >= 0 && match.ClosesPct <= 100)
		for duplets := 1; duplets <= most; duplets++ {
			with.Duplets = duplets
			off := abs(cluster.BallSeenMM(cluster.Recipe{with}) - match.TargetMM)
			assert.GreaterOrEqual(t, off, abs(match.SeenMM-match.TargetMM)-0.02)
		}
	})
}

func TestSubstituteKeepsTheRest(t *testing.T) {
	stands, match, err := cluster.Substitute(recipe(t, "2x5@4.5 + 1x11@10 + 1x18@16"), 18,
		cluster.Part{SizeIn: 12, ToIn: 11}, 6)
	require.NoError(t, err)
	assert.Equal(t, 3+match.Duplets, stands.Duplets())
	assert.Contains(t, stands.String(), "2x5@4.5 + 1x11@10 + ")
	assert.InDelta(t, cluster.BallSeenMM(stands), match.SeenMM, 1e-9)
}

func abs(x float64) float64 { return max(x, -x) }
