package order_test

import (
	"slices"
	"testing"

	"garlandry/calc/order"

	"github.com/stretchr/testify/assert"
)

func FuzzSortsAsPackageSlices(f *testing.F) {
	f.Add("")
	f.Add("the pack list, then the cards")
	f.Fuzz(func(t *testing.T, text string) {
		var words []string
		var whole []int
		var numbers []float64
		for i, c := range text {
			words = append(words, text[i:min(i+3, len(text))])
			whole = append(whole, int(c)%7)
			numbers = append(numbers, float64(c)/3)
		}
		wantWords, wantWhole, wantNumbers := slices.Clone(words), slices.Clone(whole), slices.Clone(numbers)
		slices.Sort(wantWords)
		slices.Sort(wantWhole)
		slices.Sort(wantNumbers)
		order.Strings(words)
		order.Ints(whole)
		order.Float64s(numbers)
		assert.Equal(t, wantWords, words)
		assert.Equal(t, wantWhole, whole)
		assert.Equal(t, wantNumbers, numbers)
	})
}
