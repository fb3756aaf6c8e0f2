package cluster_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
	"garlandry/calc/latex"
)

// sizesOf lists the sizes of a recipe that must never fall.
func sizesOf(r cluster.Recipe, p cluster.Push) map[string]float64 {
	f := cluster.Measure(r, p)
	return map[string]float64{"width": f.WidthMM, "widest": f.WidestMM, "ball": f.BallMM, "ball as seen": f.BallSeenMM}
}

// rises checks that no size of a recipe is below that of another.
func rises(t require.TestingT, smaller, larger cluster.Recipe, p cluster.Push) {
	before, after := sizesOf(smaller, p), sizesOf(larger, p)
	for name, mm := range before {
		assert.GreaterOrEqual(t, after[name], mm*(1-1e-12), "%s of %s against %s at a push of %g", name, larger,
			smaller, p.Relative)
	}
}

// TestNoBalloonMakesAnythingSmaller checks that a duplet of any size, sized to anything, never makes a cluster or a
// string smaller, at any push.
func TestNoBalloonMakesAnythingSmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		smaller := anyRecipe(t)
		if smaller.Duplets() == cluster.MaxDuplets {
			return
		}
		larger := append(slices.Clone(smaller), anyPart(t, 1)).Normal()
		push := cluster.Push{Relative: rapid.Float64Range(0.1, 6).Draw(t, "push")}
		rises(t, smaller, larger, push)
		assert.GreaterOrEqual(t, cluster.PitchMM(larger, push), cluster.PitchMM(smaller, push)*(1-1e-12))
	})
}

// TestNoSizeToMakesAnythingSmaller checks that balloons sized larger never make a cluster or a string smaller.
func TestNoSizeToMakesAnythingSmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		smaller := anyRecipe(t)
		larger := slices.Clone(smaller)
		part := &larger[rapid.IntRange(0, len(larger)-1).Draw(t, "part")]
		part.ToIn += rapid.Float64Range(0, 10).Draw(t, "further")
		push := cluster.Push{Relative: rapid.Float64Range(0.1, 6).Draw(t, "push")}
		rises(t, smaller, larger, push)
	})
}

// TestHarderPushesMakeStringsWider checks that a string that is pushed harder is not narrower.
func TestHarderPushesMakeStringsWider(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		push := rapid.Float64Range(0.1, 6).Draw(t, "push")
		lighter, harder := cluster.Push{Relative: push}, cluster.Push{Relative: push * 2}
		assert.GreaterOrEqual(t, cluster.WidthMM(r, harder), cluster.WidthMM(r, lighter), "%s", r)
		assert.GreaterOrEqual(t, cluster.WidestMM(r, harder), cluster.WidestMM(r, lighter)*0.99, "%s", r)
	})
}

// TestNothingIsNarrowerThanItsLargestDuplet checks that two balloons neck to neck span twice their diameter, in a free
// cluster and on a string.
func TestNothingIsNarrowerThanItsLargestDuplet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		push := cluster.Push{Relative: rapid.Float64Range(0.1, 6).Draw(t, "push")}
		diameters := r.DiametersMM()
		span := 2 * slices.Max(diameters)
		assert.GreaterOrEqual(t, cluster.BallMM(r), span)
		assert.GreaterOrEqual(t, cluster.WidestMM(r, push), span)
	})
}

// TestSmallBalloonsDoNotThinAGarland checks a base of one 18-inch duplet and four 5-inch ones, whose two 16-inch
// balloons neck to neck span 32 in.
func TestSmallBalloonsDoNotThinAGarland(t *testing.T) {
	push := cluster.StandardPush()
	alone, beside := recipe(t, "1x18@16"), recipe(t, "4x5@4.5 + 1x18@16")
	rises(t, alone, beside, push)
	assert.GreaterOrEqual(t, cluster.WidthMM(beside, push), 32*25.4)
	assert.GreaterOrEqual(t, cluster.BallMM(beside), 32*25.4)
}

func FuzzNoBalloonMakesAnythingSmaller(f *testing.F) {
	f.Add(byte(2), 10.0, byte(1), 16.0, byte(0), 5.0, 4.5, 1.0)
	f.Add(byte(0), 10.0, byte(1), 16.0, byte(3), 4.5, 4.5, 0.5)
	f.Add(byte(1), 4.0, byte(1), 33.0, byte(4), 21.0, 21.0, 3.0)
	f.Fuzz(func(t *testing.T, a byte, first float64, b byte, second float64, c byte, third, more, push float64) {
		smaller := cluster.Recipe{{Duplets: int(a % 3), SizeIn: 11, ToIn: first},
			{Duplets: int(b % 3), SizeIn: 18, ToIn: second}, {Duplets: int(c % 3), SizeIn: 24, ToIn: third}}
		larger := append(slices.Clone(smaller), cluster.Part{Duplets: 1, SizeIn: latex.Sizes()[0].NominalIn,
			ToIn: more})
		p := cluster.Push{Relative: push}
		if pitch := cluster.PitchMM(larger, p); pitch > 0 {
			rises(t, smaller, larger, p)
			assert.GreaterOrEqual(t, pitch, cluster.PitchMM(smaller, p)*(1-1e-12))
		}
	})
}
