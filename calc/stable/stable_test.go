package stable_test

import (
	"cmp"
	"slices"
	"testing"

	"garlandry/calc/stable"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestSort compares with the sort of the standard library: the second value of a pair tells equals apart.
func TestSort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		firsts := rapid.SliceOf(rapid.IntRange(0, 9)).Draw(t, "firsts")
		var got [][2]int
		for i, first := range firsts {
			got = append(got, [2]int{first, i})
		}
		want := slices.Clone(got)
		byFirst := func(a, b [2]int) int { return cmp.Compare(a[0], b[0]) }
		slices.SortStableFunc(want, byFirst)
		stable.Sort(got, byFirst)
		assert.Equal(t, want, got)
	})
}

// TestFloats compares with the sort of the standard library.
func TestFloats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got := rapid.SliceOf(rapid.Float64()).Draw(t, "numbers")
		want := slices.Clone(got)
		slices.Sort(want)
		stable.Floats(got)
		assert.Equal(t, want, got)
	})
}
