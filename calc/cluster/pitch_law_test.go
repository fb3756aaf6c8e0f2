package cluster_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/cluster"
)

// drawn calls see with recipes as decorators twist them and pushes, drawn from seeds that it prints.
func drawn(t *testing.T, seed uint64, recipes int, see func(*rand.Rand, cluster.Recipe, cluster.Push)) {
	t.Logf("seeds %d and %d", seed, recipes)
	draw := rand.New(rand.NewPCG(seed, uint64(recipes)))
	for range recipes {
		r := usual(draw, 1+draw.IntN(4), cluster.MaxDuplets-1)
		see(draw, r, cluster.Push{Relative: []float64{0.3, 0.7, 1, 1, 1, 1.5, 3}[draw.IntN(7)]})
	}
}

// TestNoDupletShortensThePitch checks that clusters with one more duplet are never closer together at the same push.
func TestNoDupletShortensThePitch(t *testing.T) {
	drawn(t, 142, 4000, func(draw *rand.Rand, r cluster.Recipe, p cluster.Push) {
		more := append(slices.Clone(r), usual(draw, 1, 1)...)
		assert.GreaterOrEqual(t, cluster.PitchMM(more, p), cluster.PitchMM(r, p)*(1-1e-12),
			"%s against %s at a push of %g", more, r, p.Relative)
	})
}

// TestSizingUpHardlyShortensThePitch bounds by how much the pitch falls if one size is filled by up to a tenth more.
// Strings relaxed from different starts differ by one or two percent, and so does the table from size to size.
func TestSizingUpHardlyShortensThePitch(t *testing.T) {
	var fall []float64
	drawn(t, 143, 4000, func(draw *rand.Rand, r cluster.Recipe, p cluster.Push) {
		larger := slices.Clone(r)
		larger[draw.IntN(len(r))].ToIn *= 1 + float64(draw.Float64()/10)
		fall = append(fall, max(0, 1-cluster.PitchMM(larger, p)/cluster.PitchMM(r, p)))
	})
	slices.Sort(fall)
	n := len(fall)
	t.Logf("19 of 20 fall by up to %.2f %%, 99 of 100 by up to %.2f %%, the worst by %.2f %%", 100*fall[n*19/20],
		100*fall[n*99/100], 100*fall[n-1])
	assert.LessOrEqual(t, fall[n*19/20], 0.005)
	assert.LessOrEqual(t, fall[n*99/100], 0.016)
	assert.LessOrEqual(t, fall[n-1], 0.05)
}

// TestSmallBalloonsDoNotShortenABase checks recipes whose own curves in the table fall by three to four percent with
// one more duplet.
func TestSmallBalloonsDoNotShortenABase(t *testing.T) {
	for _, c := range []struct{ fewer, more string }{
		{"1x5@4 + 2x11@9.75", "2x5@4 + 2x11@9.75"},
		{"1x5@4.25 + 2x18@15.5", "1x5@4.25 + 1x11@9.25 + 2x18@15.5"},
		{"1x5@4.25 + 2x24@22.75", "1x5@4.25 + 1x16@14.25 + 2x24@22.75"},
	} {
		fewer, more := recipe(t, c.fewer), recipe(t, c.more)
		push := cluster.StandardPush()
		assert.GreaterOrEqual(t, cluster.PitchMM(more, push), cluster.PitchMM(fewer, push), c.more)
		assert.LessOrEqual(t, cluster.ClustersAlong(30_000, more, push),
			cluster.ClustersAlong(30_000, fewer, push), c.more)
	}
}
