package stock_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/calc/stock"
)

func ExampleSpread() {
	// Six clusters of three duplets, half coral, the rest ink blue and sand.
	colours, totals, err := stock.Spread(6, 3, []float64{2, 1, 1})
	fmt.Println(colours, totals, err)
	// Output: [[0 1 2] [0 0 1] [0 0 2] [0 1 2] [0 0 1] [0 1 2]] [9 5 4] <nil>
}

func TestSpreadOneColourPerCluster(t *testing.T) {
	colours, totals, err := stock.Spread(8, 1, []float64{1, 1})
	require.NoError(t, err)
	assert.Equal(t, []int{4, 4}, totals)
	for i, cluster := range colours {
		assert.Equal(t, []int{i % 2}, cluster, "two equal colours must alternate")
	}
}

func TestSpreadRefuses(t *testing.T) {
	_, _, err := stock.Spread(-1, 3, []float64{1})
	require.ErrorIs(t, err, stock.ErrCount)
	_, _, err = stock.Spread(1000, 1000, []float64{1})
	require.ErrorIs(t, err, stock.ErrCount)
	_, _, err = stock.Spread(3, 3, nil)
	require.ErrorIs(t, err, stock.ErrWeight)
	colours, totals, err := stock.Spread(0, 3, []float64{1})
	require.NoError(t, err)
	assert.Empty(t, colours)
	assert.Equal(t, []int{0}, totals)
}

func TestSpreadLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clusters := rapid.IntRange(1, 120).Draw(t, "clusters")
		each := rapid.IntRange(1, 8).Draw(t, "each")
		weights := rapid.SliceOfN(rapid.Float64Range(0, 10), 1, 8).Draw(t, "weights")
		weights[0]++
		colours, totals, err := stock.Spread(clusters, each, weights)
		require.NoError(t, err)
		require.Len(t, colours, clusters)

		want, err := stock.Split(clusters*each, weights)
		require.NoError(t, err)
		assert.Equal(t, want, totals, "the totals must be those of Split")
		counts := make([]int, len(weights))
		for i, cluster := range colours {
			require.Len(t, cluster, each, "every duplet needs a colour")
			for _, colour := range cluster {
				counts[colour]++
			}
			for j, count := range counts {
				share := float64(totals[j]) * float64(i+1) / float64(clusters)
				assert.InDelta(t, share, count, 1, "after cluster %d colour %d must be near its share", i+1, j)
			}
		}
		assert.Equal(t, totals, counts)
	})
}

func BenchmarkSpread(b *testing.B) {
	for b.Loop() {
		if _, _, err := stock.Spread(600, 4, []float64{45, 30, 24, 1}); err != nil {
			b.Fatal(err)
		}
	}
}
