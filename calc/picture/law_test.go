package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/picture"
)

// odd draws recipes beyond what Check allows, as a page has while somebody types.
func odd(t *rapid.T) cluster.Recipe {
	part := rapid.Custom(func(t *rapid.T) cluster.Part {
		to := rapid.OneOf(rapid.Float64Range(1, 40), rapid.SampledFrom([]float64{0, -3, 0.01, 5e5, math.NaN(), math.Inf(1)}))
		return cluster.Part{Duplets: rapid.IntRange(0, 9).Draw(t, "duplets"),
			SizeIn: rapid.SampledFrom([]int{5, 11, 18, 36, 7}).Draw(t, "size"), ToIn: to.Draw(t, "to")}
	})
	return rapid.SliceOfN(part, 0, 3).Draw(t, "recipe")
}

func clustersOf(t *rapid.T) picture.Clusters {
	c := picture.Clusters{Recipes: []cluster.Recipe{odd(t), odd(t)}}
	c.Order = rapid.SliceOfN(rapid.IntRange(0, 1), 0, 25).Draw(t, "order")
	return c
}

func balloonsIn(c picture.Clusters) int {
	n := 0
	for _, k := range c.Order {
		n += c.Recipes[k].Balloons()
	}
	return n
}

var length = rapid.OneOf(rapid.Float64Range(1, 10_000), rapid.SampledFrom([]float64{1, 1e7, 0, -5, math.NaN()}))

// TestAnyPictureIsWhole draws what people type while they type: every picture has its balloons and no place that is
// not a number, and is the same the second time.
func TestAnyPictureIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := clustersOf(t)
		push := cluster.Push{Relative: rapid.SampledFrom([]float64{0, 0.1, 1, 4, math.NaN()}).Draw(t, "push")}
		shape := outline.Shape{
			Kind: rapid.SampledFrom(outline.Kinds()).Draw(t, "kind"), LengthMM: length.Draw(t, "length"),
			WidthMM: length.Draw(t, "width"), HeightMM: length.Draw(t, "height"), DiameterMM: length.Draw(t, "diameter"),
			SpanMM: length.Draw(t, "span"), SagMM: length.Draw(t, "sag"), RiseMM: length.Draw(t, "rise"),
			Part:   rapid.SampledFrom([]float64{0, 0.01, 0.5, 1}).Draw(t, "part"),
			Points: []outline.Point{{}, {XMM: length.Draw(t, "x"), YMM: length.Draw(t, "y")}, {XMM: 3, YMM: 900}},
		}
		balloons, line, err := picture.Strung(shape, c, push)
		if err == nil {
			whole(t, "strung", balloons, balloonsIn(c))
			again, _, _ := picture.Strung(shape, c, push)
			assert.Equal(t, balloons, again)
		}
		n := rapid.IntRange(-1, 7).Draw(t, "stacks")
		columns, _ := picture.Column(c, push, n, length.Draw(t, "pitch"))
		whole(t, "column", columns, balloonsIn(c))
		wall := picture.Wall(c, push, n, rapid.Float64Range(0, 3000).Draw(t, "apart"))
		whole(t, "wall", wall, balloonsIn(c))
		accents := clustersOf(t)
		from := rapid.SampledFrom([]float64{0, 0.3, -1, 2, math.NaN()}).Draw(t, "from")
		to := rapid.Float64Range(0, 1).Draw(t, "to")
		whole(t, "accents on a line", picture.On(balloons, line.Points, from, to, accents), balloonsIn(accents))
		whole(t, "accents on a wall", picture.On(wall, nil, from, to, accents), balloonsIn(accents))
	})
}

// TestAnyPileIsWhole also checks that nothing overlaps or is below the floor.
func TestAnyPileIsWhole(t *testing.T) {
	size := rapid.Custom(func(t *rapid.T) picture.Size {
		diameter := rapid.OneOf(rapid.Float64Range(30, 1000), rapid.SampledFrom([]float64{0, -1, 1e9, 2, math.NaN()}))
		return picture.Size{DiameterMM: diameter.Draw(t, "diameter"), Count: rapid.IntRange(-1, 60).Draw(t, "count")}
	})
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(size, 0, 6).Draw(t, "sizes")
		n := 0
		for _, s := range sizes {
			n += max(s.Count, 0)
		}
		heap := picture.Heap(sizes)
		whole(t, "heap", heap, n)
		assert.LessOrEqual(t, deepest(heap), 0.08)
		assert.GreaterOrEqual(t, picture.ExtentOf(heap).BottomMM, -1e-6)
		bunches := rapid.IntRange(0, 3).Draw(t, "bunches")
		bouquets, _ := picture.Bouquets(sizes, bunches, rapid.Bool().Draw(t, "helium"))
		whole(t, "bouquets", bouquets, n*bunches)
		assert.GreaterOrEqual(t, picture.ExtentOf(bouquets).BottomMM, -1e-6)
		bars := []picture.Rectangle{{0, 0, length.Draw(t, "w"), length.Draw(t, "h")}, {length.Draw(t, "x"), 0, 240, 0}}
		if finite(bars) {
			whole(t, "digits", picture.Digits([]picture.Digit{{bars, n}, {nil, 3}}, length.Draw(t, "d")), n+3)
		}
	})
}

func finite(bars []picture.Rectangle) bool {
	return !math.IsNaN(bars[0].WideMM) && !math.IsNaN(bars[0].HighMM) && !math.IsNaN(bars[1].LeftMM)
}

func whole(t *rapid.T, says string, balloons []picture.Balloon, n int) {
	if len(balloons) != n {
		t.Fatalf("%s: %d balloons, not %d", says, len(balloons), n)
	}
	type place struct{ cluster, part, slot int }
	seen := map[place]bool{}
	for _, b := range balloons {
		at := place{b.Cluster, b.Part, b.Slot}
		sum := b.XMM + b.YMM + b.DepthMM + b.RadiusMM
		if seen[at] || math.IsNaN(sum) || math.IsInf(sum, 0) || !(b.RadiusMM > 0) {
			t.Fatalf("%s: %+v, twice %v", says, b, seen[at])
		}
		seen[at] = true
	}
}
