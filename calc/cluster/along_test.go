package cluster_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
)

func ExampleClustersAlong() {
	base, _ := cluster.ParseRecipe("3x11@10")
	fmt.Println(cluster.ClustersAlong(3100, base, cluster.StandardPush()))
	mine, err := (*cluster.Model)(nil).MeasuredPush(base, 3100, 12)
	fmt.Println(cluster.ClustersAlong(3100, base, mine), mine.Source, err)
	// Output:
	// 14
	// 12 measured by you <nil>
}

func TestClustersAlongRoundsUpOnce(t *testing.T) {
	quads := recipe(t, "2x11@9.5")
	push := cluster.StandardPush()
	pitch := cluster.PitchMM(quads, push)
	cases := []struct {
		name   string
		length float64
		want   int
	}{
		{"nothing", 0, 0},
		{"negative", -5, 0},
		{"not a number", math.NaN(), 0},
		{"a bit", 10, 1},
		{"exactly ten", 10 * pitch, 10},
		{"ten and a rounding error", 10*pitch + 1e-9, 10},
		{"ten and a hundredth of a cluster", 10.01 * pitch, 11},
		{"endless", math.Inf(1), math.MaxInt32},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, cluster.ClustersAlong(c.length, quads, push))
		})
	}
	assert.Zero(t, cluster.ClustersAlong(1000, nil, push), "no recipe")
	assert.Zero(t, cluster.Measure(nil, push))
}

// TestCountsEverywhere compares counts with those of a native run, which every machine must reproduce.
func TestCountsEverywhere(t *testing.T) {
	push := cluster.StandardPush()
	for _, c := range []struct {
		recipe                string
		tenFeet, longer, seen int
	}{
		{"2x11@9.5", 20, 52, 426},
		{"1x11@10", 37, 95, 345},
		{"3x11@10", 14, 35, 516},
		{"4x11@10", 11, 28, 578},
		{"8x11@10", 7, 17, 754},
		{"2x5@4.5", 43, 108, 202},
		{"2x11@10 + 1x18@16", 13, 32, 654},
		{"2x11@10 + 1x18@15", 13, 32, 630},
		{"1x11@10 + 1x24@22", 15, 37, 791},
		{"2x5@4 + 2x11@10 + 2x18@16", 8, 21, 791},
		{"4x11@10 + 2x18@16", 8, 19, 849},
		{"1x5@4 + 1x36@33", 10, 24, 1142},
		{"1x5@4.5 + 2x11@10 + 1x18@16", 12, 30, 661},
		{"2x11@9 + 1x18@15 + 2x24@21", 7, 18, 1037},
	} {
		r := recipe(t, c.recipe)
		assert.Equal(t, c.tenFeet, cluster.ClustersAlong(3048, r, push), "%s over 3048 mm", c.recipe)
		assert.Equal(t, c.longer, cluster.ClustersAlong(7777, r, push), "%s over 7777 mm", c.recipe)
		assert.Equal(t, c.seen, int(math.Round(cluster.BallSeenMM(r))), "seen of %s", c.recipe)
	}
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		push := cluster.Push{Relative: rapid.Float64Range(0.01, 8).Draw(t, "push")}
		length := rapid.Float64Range(0, 50_000).Draw(t, "length")
		more := length + rapid.Float64Range(0, 10_000).Draw(t, "more")
		count := cluster.ClustersAlong(length, r, push)
		assert.LessOrEqual(t, count, cluster.ClustersAlong(more, r, push), "the count cannot fall with length")

		figures := cluster.Measure(r, push)
		assert.Positive(t, figures.PitchMM)
		assert.Positive(t, figures.WidthMM)
		assert.Greater(t, figures.WidestMM, figures.WidthMM)
		assert.Positive(t, figures.BallSeenMM)
		assert.Greater(t, figures.BallMM, figures.BallSeenMM)
		assert.True(t, figures.Coverage > 0 && figures.Coverage <= 1, "%g", figures.Coverage)
		assert.GreaterOrEqual(t, float64(count)*figures.PitchMM, length-2*clusterForgiven*figures.PitchMM,
			"the count must fill the length")

		harder := cluster.Push{Relative: push.Relative * 1.5}
		assert.LessOrEqual(t, cluster.PitchMM(r, harder), figures.PitchMM, "a harder push cannot move them further apart")
	})
}

// clusterForgiven is the share that ClustersAlong ignores, according to its doc.
const clusterForgiven = 1e-3

// TestScale checks that doubling all sizes doubles every length.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		doubled := append(cluster.Recipe(nil), r...)
		for i := range doubled {
			doubled[i].ToIn *= 2
		}
		one, two := cluster.Measure(r, cluster.StandardPush()), cluster.Measure(doubled, cluster.StandardPush())
		assert.InEpsilon(t, 2*one.PitchMM, two.PitchMM, 1e-9)
		assert.InEpsilon(t, 2*one.WidthMM, two.WidthMM, 1e-9)
		assert.InEpsilon(t, 2*one.WidestMM, two.WidestMM, 1e-9)
		assert.InEpsilon(t, 2*one.BallMM, two.BallMM, 1e-9)
		assert.InEpsilon(t, 2*one.BallSeenMM, two.BallSeenMM, 1e-9)
		assert.InDelta(t, one.Coverage, two.Coverage, 1e-9)
	})
}

func TestMeasuredPush(t *testing.T) {
	standard := cluster.PitchMM(recipe(t, "2x11@9.5"), cluster.StandardPush())
	same, err := (*cluster.Model)(nil).MeasuredPush(recipe(t, "2x11@9.5"), 20*standard, 20)
	require.NoError(t, err)
	assert.InDelta(t, 1, same.Relative, 1e-9, "the standard base must give the standard push")

	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		clusters := rapid.IntRange(1, 60).Draw(t, "clusters")
		length := float64(clusters) * cluster.PitchMM(r, cluster.Push{Relative: rapid.Float64Range(0.3, 3.5).Draw(t, "push")})
		push, err := (*cluster.Model)(nil).MeasuredPush(r, length, clusters)
		require.NoError(t, err)
		assert.Equal(t, cluster.SourceMeasured, push.Source)
		assert.Equal(t, clusters, cluster.ClustersAlong(length, r, push), "the measured base must take the measured number")
	})
}

func TestMeasuredPushRefuses(t *testing.T) {
	r := recipe(t, "3x11@10")
	cases := []struct {
		name     string
		length   float64
		clusters int
	}{
		{"no length", 0, 12},
		{"no clusters", 3100, 0},
		{"not a number", math.NaN(), 12},
		{"standing apart", 3100, 3},
		{"crushed", 3100, 100},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			push, err := (*cluster.Model)(nil).MeasuredPush(r, c.length, c.clusters)
			require.ErrorIs(t, err, cluster.ErrMeasured)
			assert.Zero(t, push)
		})
	}
	_, err := (*cluster.Model)(nil).MeasuredPush(nil, 3100, 12)
	assert.ErrorIs(t, err, cluster.ErrRecipe)
}

// TestEmptyPushIsTheStandard checks that an empty push, as in a job stored before pushes existed, is the standard.
func TestEmptyPushIsTheStandard(t *testing.T) {
	r := recipe(t, "3x11@10")
	standard := cluster.PitchMM(r, cluster.StandardPush())
	for _, relative := range []float64{0, -1, math.NaN()} {
		assert.Equal(t, standard, cluster.PitchMM(r, cluster.Push{Relative: relative}))
	}
}

func BenchmarkMeasure(b *testing.B) {
	for _, text := range []string{"2x11@9.5", "2x11@10 + 1x18@15", "2x5@4 + 2x11@10 + 2x18@16"} {
		r := recipe(b, text)
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				cluster.Measure(r, cluster.StandardPush())
			}
		})
	}
}
