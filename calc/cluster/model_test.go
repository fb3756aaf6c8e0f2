package cluster_test

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster"
	"garlandry/calc/softsphere"
)

// relaxed returns the figures of a recipe from calc/softsphere itself, at that push.
func relaxed(t *testing.T, r cluster.Recipe, push float64) cluster.Figures {
	diameters := r.DiametersMM()
	typical, err := softsphere.Typical(diameters, push)
	require.NoError(t, err)
	free, err := softsphere.Free(diameters)
	require.NoError(t, err)
	return cluster.Figures{PitchMM: typical.PitchMM, WidthMM: typical.WidthMM, WidestMM: typical.WidestMM,
		BallMM: free.BallMM(), BallSeenMM: free.SeenMM(), Coverage: typical.Coverage}
}

// standardShare returns the standard push as a share of the mean diameter, as calc/softsphere expects it.
func standardShare(t *testing.T) float64 {
	curve, err := softsphere.Sketch([]float64{1, 1, 1, 1}, nil)
	require.NoError(t, err)
	push, reached := curve.PushAt(6 / 9.5)
	require.True(t, reached)
	return push
}

// TestTableIsNear compares the table's answers with relaxing the recipe itself. Recipes in the table must be within 5
// %, mostly 3, which is how much two relaxations from different starts may differ (quads fold near the standard push).
// Other recipes must be within 10 %, and only these are labelled as estimates.
func TestTableIsNear(t *testing.T) {
	cases := []struct {
		name, recipe string
		within       float64
	}{
		{"quads", "2x11@9.5", 0.03},
		{"three duplets", "3x11@10", 0.03},
		{"mixed, in the table", "2x11@10 + 1x18@16", 0.03},
		{"mixed, between ratios", "2x11@10 + 1x18@14", 0.03},
		{"mixed, five duplets", "3x11@10 + 2x18@16", 0.03},
		{"mixed, six duplets", "4x11@9 + 2x24@20", 0.04},
		{"mixed, eight duplets", "5x5@4.5 + 3x18@16", 0.03},
		{"three sizes", "1x5@4.5 + 2x11@10 + 1x18@16", 0.03},
		{"three sizes, fewest", "1x5 + 1x11 + 1x18", 0.03},
		{"three sizes, large", "2x11 + 1x18 + 1x24", 0.03},
		{"three sizes, more large", "1x5 + 1x11 + 2x18", 0.03},
		{"three sizes, largest", "1x18@15 + 1x24@21.5 + 1x36@34.5", 0.03},
		{"three sizes, five duplets", "2x5 + 2x11 + 1x18", 0.05},
		{"six", "2x5 + 2x11 + 2x18", 0.1},
		{"four sizes", "2x5 + 1x11 + 1x18 + 1x24", 0.1},
		{"beyond the ratios", "1x5@4 + 1x36@33", 0.08},
	}
	push := standardShare(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := recipe(t, c.recipe)
			own := relaxed(t, r, push)
			told := cluster.Measure(r, cluster.StandardPush())
			assert.Equal(t, c.within > 0.05, cluster.Estimated(r))
			assert.InEpsilon(t, own.PitchMM, told.PitchMM, c.within, "pitch")
			assert.InDelta(t, own.Coverage, told.Coverage, min(c.within, 0.05), "coverage")
		})
	}
}

// usual draws a recipe as decorators twist them, of some sizes and up to as many duplets.
func usual(draw *rand.Rand, kinds, duplets int) (r cluster.Recipe) {
	sizes := []struct {
		size     int
		from, to float64
	}{{5, 4, 4.5}, {11, 9, 10.5}, {16, 14, 15}, {18, 15, 16.5}, {24, 20, 23}, {36, 30, 35}}
	for _, i := range draw.Perm(len(sizes))[:kinds] {
		s := sizes[i]
		to := math.Round(4*(s.from+draw.Float64()*(s.to-s.from))) / 4
		r = append(r, cluster.Part{Duplets: 1, SizeIn: s.size, ToIn: to})
	}
	for range draw.IntN(duplets + 1 - kinds) {
		r[draw.IntN(kinds)].Duplets++
	}
	return r
}

// spread sorts relative errors and returns their lowest, middle and highest twentieth.
func spread(errors []float64) (low, middle, high float64) {
	slices.Sort(errors)
	n := len(errors)
	return errors[n/20], errors[n/2], errors[n-1-n/20]
}

// TestPitchIsNearForRecipesDrawnAtRandom draws recipes between the table's ratios, at the standard push and at lighter
// and harder ones. Half of the pitches must be within 2 % and 19 of 20 within 5 % of relaxing them.
func TestPitchIsNearForRecipesDrawnAtRandom(t *testing.T) {
	recipes := 40
	if testing.Short() {
		recipes = 8
	}
	standard := standardShare(t)
	draw := rand.New(rand.NewPCG(2026, 11))
	var off []float64
	for len(off) < recipes {
		r := usual(draw, 2+draw.IntN(2), 4)
		if cluster.Estimated(r) {
			continue
		}
		push := []float64{0.7, 1, 1.5}[len(off)%3]
		own, told := relaxed(t, r, push*standard), cluster.Measure(r, cluster.Push{Relative: push})
		off = append(off, abs(told.PitchMM/own.PitchMM-1))
		if worst := off[len(off)-1]; worst > 0.03 {
			t.Logf("pitch of %s at %g is %.1f %% off", r, push, 100*worst)
		}
	}
	_, half, most := spread(off)
	t.Logf("half within %.1f %%, 19 of 20 within %.1f %%", 100*half, 100*most)
	assert.LessOrEqual(t, half, 0.02)
	assert.LessOrEqual(t, most, 0.05)
}

// TestModelRelaxesAndCaches checks that a model answers at once with the estimate, works, and then answers with its
// result, which equals relaxing in one go. It does not touch recipes in the table.
func TestModelRelaxesAndCaches(t *testing.T) {
	model := new(cluster.Model)
	push := cluster.StandardPush().By(model)
	held, other := recipe(t, "2x11@10 + 1x18@16"), recipe(t, "1x5 + 1x11 + 1x18 + 1x24")
	assert.Equal(t, cluster.Measure(held, cluster.StandardPush()), cluster.Measure(held, push))
	assert.False(t, push.Estimates(held))
	assert.Empty(t, model.Wants())

	first := cluster.Measure(other, push)
	estimate := first.PitchMM
	assert.Equal(t, cluster.Measure(other, cluster.StandardPush()), first)
	assert.True(t, push.Estimates(other))
	assert.True(t, push.Working())
	pauses := 0
	model.Work(func() {
		pauses++
		assert.True(t, push.Working())
	})
	assert.Greater(t, pauses, 100, "it must work in small steps")
	assert.False(t, push.Estimates(other))
	assert.False(t, push.Working())
	then := cluster.Measure(other, push)
	own := relaxed(t, other, standardShare(t))
	assert.InEpsilon(t, own.PitchMM, then.PitchMM, 0.03)
	first.PitchMM = then.PitchMM
	assert.Equal(t, first, then, "only the pitch was relaxed")
	assert.InDelta(t, own.Coverage, then.Coverage, 0.05)

	atOnce := cluster.StandardPush().By(&cluster.Model{AtOnce: true})
	assert.Equal(t, then, cluster.Measure(other, atOnce))
	assert.Equal(t, estimate, cluster.PitchMM(other, cluster.StandardPush()), "a plan must use the table")
	mine, err := model.MeasuredPush(other, 20*then.PitchMM, 20)
	require.NoError(t, err)
	assert.InDelta(t, 1, mine.Relative, 1e-9)
	assert.InEpsilon(t, then.PitchMM, cluster.PitchMM(other, mine), 1e-9, "the same model must answer")
	assert.True(t, cluster.StandardPush().Estimates(other))
	assert.Empty(t, (*cluster.Model)(nil).Wants())
}

// TestModelRelaxesTheLatestRequestFirst checks that the latest request comes first and old ones are dropped, because
// every key typed changes the recipe.
func TestModelRelaxesTheLatestRequestFirst(t *testing.T) {
	model := new(cluster.Model)
	push := cluster.StandardPush().By(model)
	texts := []string{"1x5@4 + 1x36@33", "1x5@4.1 + 1x36@33", "1x5@4.2 + 1x36@33", "1x5@4.3 + 1x36@33",
		"1x5@4.4 + 1x36@33"}
	for _, text := range texts {
		assert.True(t, push.Estimates(recipe(t, text)))
	}
	assert.True(t, push.Estimates(recipe(t, texts[2])), "requested again")
	var done []int
	see := func() {
		for i, text := range texts {
			if model.Kept(recipe(t, text)) && !slices.Contains(done, i) {
				done = append(done, i)
			}
		}
	}
	model.Work(see)
	see()
	assert.Equal(t, []int{2, 4, 3}, done)
}

// TestModelWorkCanBeGivenUp checks that work that is given up starts anew.
func TestModelWorkCanBeGivenUp(t *testing.T) {
	model := new(cluster.Model)
	push, r := cluster.StandardPush().By(model), recipe(t, "1x5@4 + 1x36@33")
	first := cluster.Measure(r, push)
	ended := make(chan bool)
	go func() {
		defer close(ended)
		model.Work(runtime.Goexit)
	}()
	<-ended
	assert.Equal(t, r.String(), model.Wants())
	assert.Equal(t, first, cluster.Measure(r, push))
	model.Work(func() {})
	assert.NotEqual(t, first, cluster.Measure(r, push))
}
