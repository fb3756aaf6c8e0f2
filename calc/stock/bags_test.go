package stock_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/stock"
)

func ExampleBags() {
	// 212 coral 11-inch, 40 left from last time; bags at 9.90, 5.60 and 3.20.
	purchase, err := stock.Bags(212, 40, []stock.Bag{{100, 990}, {50, 560}, {25, 320}})
	fmt.Println(purchase.Counts, purchase.CostCents, purchase.Left, err)
	// Output: [1 1 1] 1870 3 <nil>
}

func TestBagsCases(t *testing.T) {
	for _, row := range []struct {
		name       string
		need, have int
		bags       []stock.Bag
		counts     []int
		cost, left int
	}{
		{"nothing missing", 40, 50, []stock.Bag{{100, 990}}, []int{0}, 0, 10},
		{"nothing needed, nothing on offer", 0, 0, nil, []int{}, 0, 0},
		{"a larger bag is cheaper than what is missing", 30, 0, []stock.Bag{{100, 500}, {25, 320}}, []int{1, 0}, 500, 70},
		{"equal cost, fewest left over", 60, 0, []stock.Bag{{100, 600}, {30, 300}}, []int{0, 2}, 600, 0},
		{"equal cost and left over, fewest bags", 100, 0, []stock.Bag{{25, 100}, {50, 200}, {100, 400}}, []int{0, 0, 1},
			400, 0},
		{"equal but for sizes, more of the larger", 60, 0, []stock.Bag{{30, 300}, {40, 400}, {20, 200}}, []int{0, 1, 1},
			600, 0},
		{"the same bag twice, the cheaper one", 10, 0, []stock.Bag{{10, 200}, {10, 100}}, []int{0, 1}, 100, 0},
		{"free bags are not hoarded", 11, 0, []stock.Bag{{10, 0}, {1, 0}}, []int{1, 1}, 0, 0},
		{"sixes, nines and twenties: 43 cannot be bought exactly", 43, 0, []stock.Bag{{6, 6}, {9, 9}, {20, 20}},
			[]int{1, 2, 1}, 44, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			purchase, err := stock.Bags(row.need, row.have, row.bags)
			require.NoError(t, err)
			assert.Equal(t, row.counts, purchase.Counts)
			assert.Equal(t, row.cost, purchase.CostCents)
			assert.Equal(t, row.left, purchase.Left)
		})
	}
}

// TestBagsFindsTheFrobeniusNumber prices bags at what they hold. A need is then met exactly if it is a sum of sixes,
// nines and twenties; 43 is the largest that is not (the textbook example of the Frobenius coin problem).
func TestBagsFindsTheFrobeniusNumber(t *testing.T) {
	bags := []stock.Bag{{6, 6}, {9, 9}, {20, 20}}
	last := 0
	for need := 1; need <= 200; need++ {
		purchase, err := stock.Bags(need, 0, bags)
		require.NoError(t, err)
		if purchase.Left > 0 {
			last = need
		}
	}
	assert.Equal(t, 43, last)
}

func TestBagsRefuses(t *testing.T) {
	for _, row := range []struct {
		name       string
		need, have int
		bags       []stock.Bag
		wrong      error
	}{
		{"no bags", 10, 9, nil, stock.ErrNoBags},
		{"empty bag", 10, 0, []stock.Bag{{0, 100}}, stock.ErrBag},
		{"bag too large", 10, 0, []stock.Bag{{stock.LargestNeed + 1, 100}}, stock.ErrBag},
		{"negative price", 10, 0, []stock.Bag{{10, -1}}, stock.ErrBag},
		{"price too high", 10, 0, []stock.Bag{{10, stock.LargestPriceCts + 1}}, stock.ErrBag},
		{"too many kinds", 10, 0, make([]stock.Bag, stock.MostBagKinds+1), stock.ErrBag},
		{"negative need", -1, 0, nil, stock.ErrCount},
		{"negative stock", 1, -1, nil, stock.ErrCount},
		{"need too large", stock.LargestNeed + 1, 0, nil, stock.ErrCount},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := stock.Bags(row.need, row.have, row.bags)
			require.ErrorIs(t, err, row.wrong)
		})
	}
}

func drawBags(t *rapid.T, mostKinds, mostHeld, dearest int) []stock.Bag {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) stock.Bag {
		return stock.Bag{
			Holds:      rapid.IntRange(1, mostHeld).Draw(t, "holds"),
			PriceCents: rapid.IntRange(0, dearest).Draw(t, "price"),
		}
	}), 1, mostKinds).Draw(t, "bags")
}

// tryAll returns the best purchase by trying every combination of counts.
func tryAll(missing int, bags []stock.Bag) (cost, left, count int) {
	best := [3]int{-1}
	var try func(kind, cost, bought, count int)
	try = func(kind, cost, bought, count int) {
		if bought >= missing {
			here := [3]int{cost, bought - missing, count}
			if best[0] < 0 || here[0] < best[0] || here[0] == best[0] &&
				(here[1] < best[1] || here[1] == best[1] && here[2] < best[2]) {
				best = here
			}
			return
		}
		if kind == len(bags) {
			return
		}
		try(kind+1, cost, bought, count)
		try(kind, cost+bags[kind].PriceCents, bought+bags[kind].Holds, count+1)
	}
	try(0, 0, 0, 0)
	return best[0], best[1], best[2]
}

func TestBagsMatchesTryingAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bags := drawBags(t, 4, 12, 6)
		need := rapid.IntRange(1, 30).Draw(t, "need")
		purchase, err := stock.Bags(need, 0, bags)
		require.NoError(t, err)
		cost, left, count := tryAll(need, bags)
		assert.Equal(t, [3]int{cost, left, count}, [3]int{purchase.CostCents, purchase.Left, purchase.Bags})
	})
}

func TestBagsLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bags := drawBags(t, 6, 200, 5000)
		need := rapid.IntRange(0, 3000).Draw(t, "need")
		have := rapid.IntRange(0, 500).Draw(t, "have")
		purchase, err := stock.Bags(need, have, bags)
		require.NoError(t, err)
		cost, bought, count := 0, 0, 0
		for i, n := range purchase.Counts {
			cost += n * bags[i].PriceCents
			bought += n * bags[i].Holds
			count += n
			if n > 0 {
				assert.Less(t, purchase.Left, bags[i].Holds, "no bag may be superfluous")
			}
		}
		assert.Equal(t, purchase.CostCents, cost)
		assert.Equal(t, purchase.Bought, bought)
		assert.Equal(t, purchase.Bags, count)
		assert.Equal(t, have+bought-need, purchase.Left)
		assert.GreaterOrEqual(t, purchase.Left, 0)

		more, err := stock.Bags(need+1, have, bags)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.CostCents, purchase.CostCents, "a larger need cannot cost less")

		order := rapid.Permutation(indices(len(bags))).Draw(t, "order")
		shuffled := make([]stock.Bag, len(bags))
		for to, from := range order {
			shuffled[to] = bags[from]
		}
		again, err := stock.Bags(need, have, shuffled)
		require.NoError(t, err)
		assert.Equal(t, bagsTaken(bags, purchase), bagsTaken(shuffled, again), "the order of the list must not matter")
	})
}

func bagsTaken(bags []stock.Bag, purchase stock.Purchase) map[stock.Bag]int {
	taken := map[stock.Bag]int{}
	for i, n := range purchase.Counts {
		taken[bags[i]] += n
	}
	return taken
}

var shopBags = []stock.Bag{{100, 990}, {50, 560}, {25, 320}, {12, 199}, {250, 2290}, {5, 95}}

func FuzzBags(f *testing.F) {
	f.Add(212, 40, 100, 990, 25, 320)
	f.Fuzz(func(t *testing.T, need, have, holds, price, otherHolds, otherPrice int) {
		purchase, err := stock.Bags(need, have, []stock.Bag{{holds, price}, {otherHolds, otherPrice}})
		if err != nil {
			return
		}
		assert.GreaterOrEqual(t, purchase.Left, 0)
	})
}

// BenchmarkBags has a bound of 50 ms for a need of 100,000.
func BenchmarkBags(b *testing.B) {
	for _, need := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(need), func(b *testing.B) {
			for b.Loop() {
				if _, err := stock.Bags(need, 0, shopBags); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
