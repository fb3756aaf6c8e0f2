package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/calc/pattern"
	"garlandry/calc/rng"
)

// touching sums the like pairs of neighbouring clusters of a sequence in building order: next ones and those of the
// touching strand fully, next but one by half. The whole is doubled, so that it stays a whole number.
func touching(laid pattern.Laid, sequence []int, strands int) (sum int) {
	like := make([][]int, len(laid.Kinds))
	for i, a := range laid.Kinds {
		like[i] = make([]int, len(laid.Kinds))
		for j, b := range laid.Kinds {
			for _, of := range a.Of {
				for c, n := range of {
					for _, other := range b.Of {
						if c < len(other) {
							like[i][j] += n * other[c]
						}
					}
				}
			}
		}
	}
	height := len(sequence) / strands
	for i, k := range sequence {
		if i%height > 0 {
			sum += 2 * like[k][sequence[i-1]]
		}
		if i%height > 1 {
			sum += like[k][sequence[i-2]]
		}
		if i >= height {
			sum += 2 * like[k][sequence[i-height]]
		}
	}
	return sum
}

// TestLikeColoursAreApart compares with the best of 10,000 random orders of the same kinds.
func TestLikeColoursAreApart(t *testing.T) {
	source := rng.New(20_26)
	cases := 150
	if testing.Short() {
		cases = 40
	}
	worst := 0.0
	for n := range cases {
		seed := source.Next()
		b := randomBase(seed)
		laid := lay(t, b)
		got := touching(laid, laid.Sequence, b.Strands)
		order, draw := append([]int(nil), laid.Sequence...), rng.New(seed+1)
		best := 1 << 60
		for range 10_000 {
			for i := len(order) - 1; i > 0; i-- {
				j := draw.Below(i + 1)
				order[i], order[j] = order[j], order[i]
			}
			best = min(best, touching(laid, order, b.Strands))
		}
		assert.LessOrEqual(t, float64(got), 1.15*float64(best), "case %d, seed %d: %+v", n, seed, b)
		worst = max(worst, float64(got)/float64(max(best, 1)))
	}
	t.Logf("worst of %d cases: %.3f times the best random order", cases, worst)
}

// randomBase draws 2 to 40 clusters on 1 to 4 touching strands, 1 or 2 sizes, and 2 to 6 colours.
func randomBase(seed uint64) pattern.Base {
	s := rng.New(seed)
	b := pattern.Base{Strands: 1 + s.Below(4), Joined: true, Rule: pattern.Scattered, MostKinds: 2 + s.Below(5)}
	if s.Below(2) == 0 {
		b.Rule = pattern.Single
	}
	b.Clusters = b.Strands * (2 + s.Below(38/b.Strands))
	colours := 2 + s.Below(5)
	for range 1 + s.Below(2) {
		size := pattern.Size{Each: 2 + 2*s.Below(4), Colours: make([]int, colours)}
		for range size.Each * b.Clusters {
			size.Colours[min(s.Below(colours), s.Below(colours+1))]++
		}
		b.Sizes = append(b.Sizes, size)
	}
	return b
}
