package order_test

import (
	"fmt"
	"math/bits"
	"slices"
	"sort"
	"testing"

	"garlandry/calc/order"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// tagged has a key to sort by, which others may have too, and the place it came at.
type tagged struct{ key, came int }

func taggedList(keys []int) []tagged {
	list := make([]tagged, len(keys))
	for i, key := range keys {
		list[i] = tagged{key, i}
	}
	return list
}

// keys draws lists with many equal keys and with few.
func keys(t *rapid.T) []int {
	most := rapid.SampledFrom([]int{0, 1, 5, 1000}).Draw(t, "most")
	return rapid.SliceOfN(rapid.IntRange(0, most), 0, 300).Draw(t, "keys")
}

func TestBySortsAsSliceStable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got := taggedList(keys(t))
		want := slices.Clone(got)
		sort.SliceStable(want, func(i, j int) bool { return want[i].key < want[j].key })
		order.By(got, func(i, j int) bool { return got[i].key < got[j].key })
		assert.Equal(t, want, got)
	})
}

func TestIndexesAreWhereTheSortedCameFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := keys(t)
		sorted := taggedList(keys)
		sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].key < sorted[j].key })
		want := make([]int, len(keys))
		for i := range sorted {
			want[i] = sorted[i].came
		}
		assert.Equal(t, want, order.Indexes(len(keys), func(i, j int) bool { return keys[i] < keys[j] }))
	})
}

func TestIndexesAskFew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := keys(t)
		n, asked := len(keys), 0
		less := func(i, j int) bool {
			asked++
			return keys[i] < keys[j]
		}
		order.Indexes(n, less)
		const shortRun = 8 // sorted in place, each of them is asked about four times at most on average
		levels := bits.Len(uint(max(n-1, 0) / shortRun))
		assert.LessOrEqual(t, asked, n*(shortRun/2+levels))
		slices.Sort(keys)
		asked = 0
		order.Indexes(n, less)
		assert.Equal(t, max(n, 1)-1, asked, "in order already")
	})
}

// BenchmarkSorts sorts rows as those of a phone's storage.
func BenchmarkSorts(b *testing.B) {
	type row struct {
		key string
		_   []byte // what it holds
	}
	mixed := func(i int) int { return i * 7919 % 10_007 }
	inOrder := func(i int) int { return i }
	for _, c := range []struct {
		name string
		rows int
		key  func(i int) int
	}{
		{"a few mixed", 12, mixed},
		{"a few in order", 12, inOrder},
		{"a log mixed", 10_000, mixed},
		{"a log in order", 10_000, inOrder},
	} {
		came := make([]row, c.rows)
		for i := range came {
			came[i].key = fmt.Sprintf("log/%06d", c.key(i))
		}
		list := make([]row, len(came))
		less := func(i, j int) bool { return list[i].key < list[j].key }
		for _, way := range []struct {
			name string
			sort func()
		}{
			{"order.By", func() { order.By(list, less) }},
			{"sort.SliceStable", func() { sort.SliceStable(list, less) }},
		} {
			b.Run(c.name+"/"+way.name, func(b *testing.B) {
				for b.Loop() {
					copy(list, came)
					way.sort()
				}
			})
		}
	}
}
