package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/pattern"
	"garlandry/calc/rng"
	"garlandry/calc/stock"
)

// TestFewKinds lays 200 mixtures of weights 1 to 10, as the plan splits them, and counts kinds of cluster.
func TestFewKinds(t *testing.T) {
	for _, c := range []struct {
		name     string
		clusters int
		each     []int
		colours  int
		most     int // kinds in any mixture
		wanted   int // mixtures out of 200 that need at most 4
	}{
		{"one size", 26, []int{4}, 4, 4, 200},
		{"six colours", 26, []int{8}, 6, 4, 200},
		{"two sizes", 26, []int{4, 2}, 4, 4, 200},
		{"three sizes", 26, []int{4, 2, 2}, 4, 5, 195},
		{"a long base", 100, []int{4}, 5, 5, 190},
		{"a very long base", 400, []int{4, 2}, 4, 7, 140},
	} {
		t.Run(c.name, func(t *testing.T) {
			const seed = 7
			source, most, wanted := rng.New(seed), 0, 0
			for range 200 {
				weights := make([]float64, c.colours)
				for i := range weights {
					weights[i] = float64(1 + source.Below(10))
				}
				b := pattern.Base{Clusters: c.clusters, Rule: pattern.Scattered}
				for _, each := range c.each {
					colours, err := stock.Split(each*c.clusters, weights)
					assert.NoError(t, err)
					b.Sizes = append(b.Sizes, pattern.Size{Each: each, Colours: colours})
				}
				kinds := len(lay(t, b).Kinds)
				most = max(most, kinds)
				if kinds <= 4 {
					wanted++
				}
			}
			assert.LessOrEqual(t, most, c.most, "seed %d", seed)
			assert.GreaterOrEqual(t, wanted, c.wanted, "seed %d", seed)
		})
	}
}

// TestScatteredFindsWhatThereIs tries all sets of few kinds of small bases, all but the rarest within two balloons of
// the even mixture. Where one gives the split, Lay must find as few.
func TestScatteredFindsWhatThereIs(t *testing.T) {
	for seed := range uint64(500) {
		draw := rng.New(seed)
		b := pattern.Base{Clusters: 1 + draw.Below(9), Rule: pattern.Scattered, MostKinds: 2 + draw.Below(2)}
		for range 1 + draw.Below(2) {
			size := pattern.Size{Each: 1 + draw.Below(7), Colours: make([]int, 3)}
			for range size.Each * b.Clusters {
				size.Colours[draw.Below(3)]++
			}
			b.Sizes = append(b.Sizes, size)
		}
		exists := false
		for rarest := 1; rarest <= b.Clusters; rarest++ {
			for middle := rarest; middle <= b.Clusters-rarest; middle++ {
				if first := b.Clusters - rarest - middle; first == 0 || first >= middle && b.MostKinds == 3 {
					times := []int{first, middle, rarest}
					if first == 0 {
						times = times[1:]
					}
					exists = exists || gives(b, times)
				}
			}
		}
		exists = exists || gives(b, []int{b.Clusters})
		kinds := len(lay(t, b).Kinds)
		if exists {
			assert.LessOrEqual(t, kinds, b.MostKinds, "seed %d: %+v", seed, b)
		} else {
			assert.Greater(t, kinds, b.MostKinds, "seed %d: the check itself overlooks a set", seed)
		}
	}
}

// gives reports whether kinds with these counts can give every size its colours.
func gives(b pattern.Base, times []int) bool {
	for _, size := range b.Sizes {
		if !givesSize(b, size, times, size.Colours) {
			return false
		}
	}
	return true
}

func givesSize(b pattern.Base, size pattern.Size, times, left []int) bool {
	if len(times) == 0 {
		return left[0] == 0 && left[1] == 0 && left[2] == 0
	}
	for x := 0; x <= size.Each; x++ {
	next:
		for y := 0; x+y <= size.Each; y++ {
			of := [3]int{x, y, size.Each - x - y}
			rest := make([]int, 3)
			for c, n := range of {
				rest[c] = left[c] - n*times[0]
				share := float64(size.Colours[c]) / float64(b.Clusters)
				if far := float64(n) - share; rest[c] < 0 || len(times) > 1 && (far <= -2 || far >= 2) {
					continue next
				}
			}
			if givesSize(b, size, times[1:], rest) {
				return true
			}
		}
	}
	return false
}

// TestScatteredIsMixed checks that every cluster but the odd ones is within two balloons of the even mixture.
func TestScatteredIsMixed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBase(t)
		b.Rule = pattern.Scattered
		odd := 0
		for _, kind := range lay(t, b).Kinds {
			if kind.Odd {
				odd++
				continue
			}
			for i, of := range kind.Of {
				for c, n := range of {
					assert.InDelta(t, float64(b.Sizes[i].Colours[c])/float64(b.Clusters), n, 1.999)
				}
			}
		}
		assert.LessOrEqual(t, odd, 1)
	})
}
