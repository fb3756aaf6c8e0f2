package count

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Inside the package because no plan shows the result of allot alone.

// The seats of the US House of 2020 were allotted by the same method. Populations and seats are published by the US
// Census Bureau, see testdata/apportionment/SOURCE.md.
func TestAllotMatchesTheHouseOf2020(t *testing.T) {
	file, err := os.Open("../../../testdata/apportionment/2020_435_seats.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var people []float64
	var seats []int
	for _, row := range rows[1 : len(rows)-1] { // without the heading and the sum
		population, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		n, err := strconv.Atoi(row[2])
		require.NoError(t, err)
		people, seats = append(people, population), append(seats, n)
	}
	require.Len(t, people, 50)
	assert.Equal(t, seats, allot(435, people))
}

func TestAllotEdgeCases(t *testing.T) {
	assert.Equal(t, []int{1, 1}, allot(2, []float64{1000, 0.001}), "everybody gets one")
	assert.Equal(t, []int{0, 0}, allot(0, []float64{1, 1}))
	assert.Equal(t, []int{7}, allot(7, []float64{3}))
}

func TestAllotNeverShrinks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weights := rapid.SliceOfN(rapid.Float64Range(0.001, 1000), 1, 6).Draw(t, "weights")
		total := rapid.OneOf(rapid.IntRange(0, 60), rapid.IntRange(len(weights)*2000-2, len(weights)*2000+2)).Draw(t, "total")
		less, more := allot(total, weights), allot(total+1, weights)
		sum := 0
		for i := range weights {
			sum += less[i]
			if more[i] < less[i] {
				t.Fatalf("%d clusters give %v, one more gives %v", total, less, more)
			}
		}
		if sum != total {
			t.Fatalf("%v of %d", less, total)
		}
	})
}
