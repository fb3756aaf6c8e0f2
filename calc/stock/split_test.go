package stock_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/stock"
)

func ExampleSplit() {
	// 50 clusters in coral, ink blue, sand and a touch of blush.
	shares, err := stock.Split(50, []float64{45, 30, 24, 1})
	fmt.Println(shares, err)
	// Output: [22 15 12 1] <nil>
}

// TestSplitMatchesTheApportionmentOf1790 checks the 1790 census, 120 seats by Hamilton's method: For All Practical
// Purposes, 10th ed., Table 14.5. At 105 seats Hamilton and Jefferson differ in Virginia (18 and 19) and Delaware (2
// and 1) only, according to an article in MAA Convergence.
func TestSplitMatchesTheApportionmentOf1790(t *testing.T) {
	rows := readTable(t, "apportionment/1790.csv")
	populations, people := make([]float64, len(rows)), 0.0
	for i, row := range rows {
		populations[i] = numberOf(t, row, "population")
		people += populations[i]
	}
	require.Equal(t, 3_615_920.0, people, "the textbook's total")

	by120, err := stock.Split(120, populations)
	require.NoError(t, err)
	by105, err := stock.Split(105, populations)
	require.NoError(t, err)
	for i, row := range rows {
		assert.Equal(t, wholeOf(t, row, "hamilton120"), by120[i], row["state"])
		want := wholeOf(t, row, "jefferson105")
		switch row["state"] {
		case "Virginia":
			want = 18
		case "Delaware":
			want = 2
		}
		assert.Equal(t, want, by105[i], "105 seats, %s", row["state"])
	}
}

// TestSplitMatchesTheApportionmentOf2020 checks the 2020 census, 435 seats. The law's method is Huntington-Hill (US
// Census Bureau). Hamilton's differs in four states, computed by hand from the quotas for this project.
func TestSplitMatchesTheApportionmentOf2020(t *testing.T) {
	rows := readTable(t, "apportionment/2020_435_seats.csv")
	total := rows[len(rows)-1]
	require.Equal(t, "TOTAL", total["AREA"])
	rows = rows[:len(rows)-1]
	require.Len(t, rows, 50)
	abroad := map[string]float64{}
	for _, row := range readTable(t, "apportionment/2020_census.csv") {
		abroad[row["AREA"]] = numberOf(t, row, "RESIDENT_POPULATION") + numberOf(t, row, "OVERSEAS_POPULATION")
	}
	populations := make([]float64, len(rows))
	for i, row := range rows {
		populations[i] = numberOf(t, row, "APPORTIONMENT_POPULATION")
		require.Equal(t, abroad[row["AREA"]], populations[i], "resident and overseas, %s", row["AREA"])
	}
	hamilton := map[string]int{"Montana": 1, "Rhode Island": 1, "New York": 27, "Ohio": 16}

	shares, err := stock.Split(435, populations)
	require.NoError(t, err)
	for i, row := range rows {
		want := wholeOf(t, row, "SEATS")
		if differs, ok := hamilton[row["AREA"]]; ok {
			want = differs
		}
		assert.Equal(t, want, shares[i], row["AREA"])
	}
}

func TestSplitCases(t *testing.T) {
	for _, row := range []struct {
		name    string
		total   int
		weights []float64
		want    []int
	}{
		{"one more seat, one fewer for the smallest: the Alabama paradox, 10", 10, []float64{6, 6, 2}, []int{4, 4, 2}},
		{"the Alabama paradox, 11 (worked example, from memory)", 11, []float64{6, 6, 2}, []int{5, 5, 1}},
		{"seven seats by Hamilton (worked example, from memory)", 7, []float64{53_000, 24_000, 23_000}, []int{4, 2, 1}},
		{"nothing to share", 0, []float64{1, 2}, []int{0, 0}},
		{"nothing to share and nobody to share", 0, nil, []int{}},
		{"weight 0 gets 0", 9, []float64{0, 1, 2}, []int{0, 3, 6}},
		{"equal weights, the earlier wins the tie", 10, []float64{1, 1, 1}, []int{4, 3, 3}},
		{"equal remainders, the larger weight wins the tie", 2, []float64{1, 3}, []int{1, 1}},
		{"equal remainders, the larger weight wins, either order", 6, []float64{1, 3}, []int{1, 5}},
		{"tenths that do not add up exactly in binary", 10, []float64{0.1, 0.2, 0.7}, []int{1, 2, 7}},
		{"a touch is not left out", 20, []float64{98, 1, 1}, []int{18, 1, 1}},
		{"several touches are not left out", 5, []float64{1000, 1, 1, 1, 1}, []int{1, 1, 1, 1, 1}},
		{"too few for all: the largest", 2, []float64{1, 5, 4}, []int{0, 1, 1}},
		{"far apart", 3, []float64{1e308, 1e-308, 1e308}, []int{1, 1, 1}},
	} {
		t.Run(row.name, func(t *testing.T) {
			shares, err := stock.Split(row.total, row.weights)
			require.NoError(t, err)
			assert.Equal(t, row.want, shares)
		})
	}
}

func TestSplitRefuses(t *testing.T) {
	for _, row := range []struct {
		name    string
		total   int
		weights []float64
		wrong   error
	}{
		{"negative total", -1, []float64{1}, stock.ErrCount},
		{"total too large", stock.LargestNeed + 1, []float64{1}, stock.ErrCount},
		{"negative weight", 5, []float64{1, -1}, stock.ErrWeight},
		{"not a number", 5, []float64{1, math.NaN()}, stock.ErrWeight},
		{"infinite", 5, []float64{1, math.Inf(1)}, stock.ErrWeight},
		{"no weights", 5, nil, stock.ErrWeight},
		{"only zeros", 5, []float64{0, 0}, stock.ErrWeight},
		{"too many", 5, make([]float64, stock.MostWeights+1), stock.ErrWeight},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := stock.Split(row.total, row.weights)
			require.ErrorIs(t, err, row.wrong)
		})
	}
}

func sum(shares []int) (total int) {
	for _, share := range shares {
		total += share
	}
	return total
}

func TestSplitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.IntRange(0, 2000).Draw(t, "total")
		weights := rapid.SliceOfN(rapid.OneOf(
			rapid.Float64Range(0, 100),
			rapid.Map(rapid.IntRange(0, 10), func(n int) float64 { return float64(n) }),
		), 1, 20).Draw(t, "weights")
		weights[0]++
		shares, err := stock.Split(total, weights)
		require.NoError(t, err)
		assert.Equal(t, total, sum(shares), "the shares must sum to the total")

		heavy, all := 0, 0.0
		for _, weight := range weights {
			all += weight
			if weight > 0 {
				heavy++
			}
		}
		smallest := math.Inf(1)
		for i, weight := range weights {
			quota := float64(total) * weight / all
			if weight == 0 {
				assert.Zero(t, shares[i])
				continue
			}
			smallest = math.Min(smallest, quota)
			if total >= heavy {
				assert.Positive(t, shares[i], "weight %d gets nothing", i)
			}
			for j, other := range weights {
				if weight > other {
					assert.GreaterOrEqual(t, shares[i], shares[j], "a larger weight cannot get less")
				}
			}
		}
		if smallest >= 1 {
			for i, weight := range weights {
				assert.InDelta(t, float64(total)*weight/all, shares[i], 1+1e-7, "quota rule")
			}
		}

		order := rapid.Permutation(indices(len(weights))).Draw(t, "order")
		shuffled := make([]float64, len(weights))
		for to, from := range order {
			shuffled[to] = weights[from]
		}
		again, err := stock.Split(total, shuffled)
		require.NoError(t, err)
		assert.Equal(t, byWeight(weights, shares), byWeight(shuffled, again),
			"the order of the list may only break ties")
	})
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// byWeight counts how often each weight got each share.
func byWeight(weights []float64, shares []int) map[float64]map[int]int {
	seen := map[float64]map[int]int{}
	for i, weight := range weights {
		if seen[weight] == nil {
			seen[weight] = map[int]int{}
		}
		seen[weight][shares[i]]++
	}
	return seen
}

func FuzzSplit(f *testing.F) {
	f.Add(50, 45.0, 30.0, 24.0, 1.0)
	f.Add(3, 1e308, 1e308, 1e-308, 5e-324)
	f.Fuzz(func(t *testing.T, total int, a, b, c, d float64) {
		shares, err := stock.Split(total, []float64{a, b, c, d})
		if err != nil {
			return
		}
		assert.Equal(t, total, sum(shares))
	})
}

func BenchmarkSplit(b *testing.B) {
	weights := []float64{45, 30, 24, 1, 7, 9, 13, 2}
	for b.Loop() {
		if _, err := stock.Split(1373, weights); err != nil {
			b.Fatal(err)
		}
	}
}
