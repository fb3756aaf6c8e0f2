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

func ExampleSpares() {
	// The reading room needs 137 coral 11-inch; 5 % break in beginners' hands.
	buy, err := stock.Spares(137, 5, 99)
	fmt.Println(buy, err)
	// Output: 151 <nil>
}

// TestSparesMatchesTheNegativeBinomialTable checks the project's table of "buy N so that at least k are good with 99
// %", computed from the negative binomial distribution by a separate program.
func TestSparesMatchesTheNegativeBinomialTable(t *testing.T) {
	rates := []float64{1, 2, 3, 5}
	for need, row := range map[int][]int{
		20:  {22, 22, 23, 24},
		50:  {53, 54, 55, 57},
		100: {104, 106, 108, 111},
		200: {206, 210, 213, 219},
		500: {511, 518, 525, 539},
	} {
		for i, failPct := range rates {
			buy, err := stock.Spares(need, failPct, 99)
			require.NoError(t, err)
			assert.Equal(t, row[i], buy, "need %d, %g %% fail", need, failPct)
		}
	}
}

// TestSparesMatchesR checks quantiles of R's qnbinom, for needs to 100 000 and certainties to 99.9999 %. In two rows
// the certainty is met exactly, and R's rounding asks for one more: one in a thousand fails and 1 - 0.001 = 0.999; one
// in ten and 1 - 0.1³ = 0.999.
func TestSparesMatchesR(t *testing.T) {
	metExactly := map[[3]string]int{
		{"1", "0.1", "99.9"}: 1,
		{"1", "10", "99.9"}:  3,
	}
	for _, row := range readTable(t, "spares/negative_binomial.csv") {
		buy, err := stock.Spares(wholeOf(t, row, "need"), numberOf(t, row, "fail_pct"), numberOf(t, row, "sure_pct"))
		require.NoError(t, err)
		want := wholeOf(t, row, "buy")
		if exact, ok := metExactly[[3]string{row["need"], row["fail_pct"], row["sure_pct"]}]; ok {
			want = exact
		}
		assert.Equal(t, want, buy, "%v", row)
	}
}

// TestSureMatchesR checks probabilities of R's pbinom, printed to ten digits.
func TestSureMatchesR(t *testing.T) {
	for _, row := range readTable(t, "spares/binomial.csv") {
		n, upTo := wholeOf(t, row, "n"), numberOf(t, row, "upto")
		sure, err := stock.Sure(n-wholeOf(t, row, "k"), n, numberOf(t, row, "fail_pct"))
		require.NoError(t, err)
		assert.InDelta(t, 100*upTo, sure, 1e-7*upTo+1e-13, "%v", row)
	}
}

// TestSureMatchesBinomialTables checks standard binomial tables, n = 5 and n = 20 at p = 0.05, four places (n = 5 as
// printed in the Pearson IAL formula book; n = 20 from memory).
func TestSureMatchesBinomialTables(t *testing.T) {
	for n, row := range map[int][]float64{
		5:  {.7738, .9774, .9988, 1.0000},
		20: {.3585, .7358, .9245, .9841, .9974},
	} {
		for failed, printed := range row {
			sure, err := stock.Sure(n-failed, n, 5)
			require.NoError(t, err)
			assert.InDelta(t, printed, sure/100, 5e-5+1e-9, "n %d, at most %d", n, failed)
		}
	}
}

// TestSureTendsToThePoissonTable checks printed cumulative Poisson tables, four places: the limit of many tries with
// few failures. At 100 000 tries the two differ by less than 1e-4.
func TestSureTendsToThePoissonTable(t *testing.T) {
	const tries = 100_000
	for _, row := range []struct {
		mean float64
		from int
		upTo []float64
	}{
		{0.5, 0, []float64{.6065, .9098, .9856, .9982, .9998}},
		{1, 0, []float64{.3679, .7358, .9197, .9810, .9963, .9994}},
		{2, 0, []float64{.1353, .4060, .6767, .8571, .9473, .9834, .9955, .9989}},
		{3, 0, []float64{.0498, .1991, .4232, .6472, .8153, .9161, .9665, .9881, .9962, .9989}},
		{5, 9, []float64{.9682, .9863, .9945}},
	} {
		for i, printed := range row.upTo {
			sure, err := stock.Sure(tries-row.from-i, tries, 100*row.mean/tries)
			require.NoError(t, err)
			assert.InDelta(t, printed, sure/100, 1.5e-4, "mean %g, at most %d", row.mean, row.from+i)
		}
	}
}

// TestCriticalFailures checks critical values of the binomial distribution: the fewest that must be allowed to fail for
// a certainty of 99 %, consistent with the printed tables above.
func TestCriticalFailures(t *testing.T) {
	for _, row := range []struct {
		bought  int
		failPct float64
		allowed int
	}{{20, 5, 4}, {50, 2, 4}, {100, 2, 6}, {100, 5, 11}, {200, 3, 12}, {300, 5, 24}, {500, 2, 18}} {
		enough, err := stock.Sure(row.bought-row.allowed, row.bought, row.failPct)
		require.NoError(t, err)
		fewer, err := stock.Sure(row.bought-row.allowed+1, row.bought, row.failPct)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, enough, 99.0, "%+v", row)
		assert.Less(t, fewer, 99.0, "%+v", row)
	}
}

func TestSparesEdges(t *testing.T) {
	for _, row := range []struct {
		name       string
		need       int
		fail, sure float64
		buy        int
		wrong      error
	}{
		{"nothing needed", 0, 5, 99, 0, nil},
		{"nothing fails", 137, 0, 99.9, 137, nil},
		{"doubt met exactly, though 0.1 x 0.1 rounds above 0.01", 1, 10, 99, 2, nil},
		{"doubt met exactly, one in two", 1, 50, 50, 1, nil},
		{"largest, by R", stock.LargestNeed, 90, 99.9999, 1_014_329, nil},
		{"negative need", -1, 5, 99, 0, stock.ErrCount},
		{"need too large", stock.LargestNeed + 1, 5, 99, 0, stock.ErrCount},
		{"negative rate", 10, -1, 99, 0, stock.ErrPercent},
		{"rate too high", 10, 90.1, 99, 0, stock.ErrPercent},
		{"rate not a number", 10, math.NaN(), 99, 0, stock.ErrPercent},
		{"never sure", 10, 5, 0, 0, stock.ErrPercent},
		{"certainty of 100 %, which no number of spares gives", 10, 5, 100, 0, stock.ErrPercent},
		{"certainty not a number", 10, 5, math.NaN(), 0, stock.ErrPercent},
	} {
		t.Run(row.name, func(t *testing.T) {
			buy, err := stock.Spares(row.need, row.fail, row.sure)
			if row.wrong != nil {
				require.ErrorIs(t, err, row.wrong)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, row.buy, buy)
		})
	}
}

func TestSparesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.IntRange(1, 3000).Draw(t, "need")
		fail := rapid.Float64Range(0, 60).Draw(t, "fail")
		sure := rapid.Float64Range(1, 99.99).Draw(t, "sure")
		buy, err := stock.Spares(need, fail, sure)
		require.NoError(t, err)

		enough, err := stock.Sure(need, buy, fail)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, enough, sure-1e-7, "the purchase must be enough")
		short, err := stock.Sure(need, buy-1, fail)
		require.NoError(t, err)
		assert.Less(t, short, sure+1e-7, "one fewer must not be enough")

		more, err := stock.Spares(need+1, fail, sure)
		require.NoError(t, err)
		assert.Greater(t, more, buy, "a larger need must buy more")
		worse, err := stock.Spares(need, fail+1, sure)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, worse, buy, "more breakage cannot buy fewer")
		surer, err := stock.Spares(need, fail, sure+(99.99-sure)/2)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, surer, buy, "more certainty cannot buy fewer")
	})
}

func FuzzSpares(f *testing.F) {
	f.Add(137, 5.0, 99.0)
	f.Add(100_000, 90.0, 99.9999)
	f.Fuzz(func(t *testing.T, need int, fail, sure float64) {
		buy, err := stock.Spares(need, fail, sure)
		if err != nil {
			assert.Zero(t, buy)
			return
		}
		assert.GreaterOrEqual(t, buy, need)
	})
}

func BenchmarkSpares(b *testing.B) {
	for _, need := range []int{100, 10_000, 100_000} {
		b.Run(fmt.Sprint(need), func(b *testing.B) {
			for b.Loop() {
				if _, err := stock.Spares(need, 3, 99); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
