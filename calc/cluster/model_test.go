package cluster_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/nest"
)

// TestStandInsAreNear says how far the table's answers are from relaxing the
// recipe itself: exact entries within 3 % (quads fold near the standard push, so
// the straight line between two pushes is off by most), between the ratios within
// 3 %, more than four mixed duplets or three sizes within 10 %, and these alone are
// said to be estimated.
func TestStandInsAreNear(t *testing.T) {
	cases := []struct {
		name, recipe string
		within       float64
	}{
		{"quads", "2x11@9.5", 0.03},
		{"three duplets", "3x11@10", 0.03},
		{"mixed, in the table", "2x11@10 + 1x18@16", 0.03},
		{"mixed, between ratios", "2x11@10 + 1x18@14", 0.03},
		{"mixed, five duplets", "3x11@10 + 2x18@16", 0.08},
		{"three sizes", "1x5@4.5 + 2x11@10 + 1x18@16", 0.08},
		{"three sizes, fewest", "1x5 + 1x11 + 1x18", 0.08},
		{"three sizes, more small", "2x5 + 2x11 + 1x18", 0.1},
		{"three sizes, more large", "1x5 + 1x11 + 2x18", 0.08},
		{"three sizes, two of each", "2x5 + 2x11 + 2x18", 0.08},
		{"three sizes, large", "2x11 + 1x18 + 1x24", 0.1},
		{"three sizes, far apart", "2x5 + 2x11 + 1x24", 0.08},
		{"four sizes", "2x5 + 1x11 + 1x18 + 1x24", 0.1},
		{"beyond the ratios", "1x5@4 + 1x36@33", 0.08},
	}
	model := cluster.NewModel()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := recipe(t, c.recipe)
			relaxed, err := model.Measure(r, cluster.StandardPush())
			require.NoError(t, err)
			told := cluster.Measure(r, cluster.StandardPush())
			assert.Equal(t, c.within > 0.03 && c.name != "beyond the ratios", cluster.Estimated(r))
			assert.InEpsilon(t, relaxed.PitchMM, told.PitchMM, c.within, "pitch")
			assert.InEpsilon(t, relaxed.GirthMM, told.GirthMM, c.within, "girth")
			assert.InEpsilon(t, relaxed.BallMM, told.BallMM, c.within, "ball")
			assert.InDelta(t, relaxed.Coverage, told.Coverage, 0.05, "coverage")
			again, err := model.Measure(r, cluster.StandardPush())
			require.NoError(t, err)
			assert.Equal(t, relaxed, again, "kept")
		})
	}
	_, err := model.Measure(nil, cluster.StandardPush())
	assert.ErrorIs(t, err, cluster.ErrRecipe)
}

// What is drawn is what is bought: as many balloons as counted, at the pitch that
// was counted with.
func TestArrangeStandsAtThePitch(t *testing.T) {
	for _, text := range []string{"2x11@9.5", "2x11@10 + 1x18@16", "2x5@4 + 2x11@10 + 2x18@16", "1x36@33"} {
		r := recipe(t, text)
		for _, push := range []float64{0.2, 1, 4} {
			p := cluster.Push{Relative: push}
			rest, err := cluster.Arrange(r, p, 12)
			require.NoError(t, err, "%s at %g", text, push)
			assert.InDelta(t, cluster.PitchMM(r, p), rest.PitchMM(), 1e-6)
			assert.Len(t, rest.Balloons, 12*r.Balloons())
		}
	}
	few, err := cluster.Arrange(recipe(t, "3x11@10"), cluster.StandardPush(), 0)
	require.NoError(t, err)
	assert.Len(t, few.Balloons, 6, "at least one cluster")
	many, err := cluster.Arrange(recipe(t, "1x11@10"), cluster.StandardPush(), 1_000_000)
	require.NoError(t, err)
	assert.Len(t, many.Balloons, 2*cluster.MostArranged)
	_, err = cluster.Arrange(nil, cluster.StandardPush(), 3)
	assert.ErrorIs(t, err, cluster.ErrRecipe)
}

func TestArrangeOneIsTheBall(t *testing.T) {
	r := recipe(t, "2x11@10 + 1x18@16")
	one, err := cluster.ArrangeOne(r)
	require.NoError(t, err)
	assert.InEpsilon(t, cluster.BallMM(r), one.BallMM(), 0.001)
	kinds := map[int]bool{}
	for _, b := range one.Balloons {
		kinds[b.Kind] = true
		assert.Equal(t, r.DiametersMM()[b.Kind]/2, b.Radius)
	}
	assert.Len(t, kinds, 6)
	var none nest.Rest
	none, err = cluster.ArrangeOne(nil)
	assert.ErrorIs(t, err, cluster.ErrRecipe)
	assert.Empty(t, none.Balloons)
}
