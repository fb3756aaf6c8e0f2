package job_test

import (
	"fmt"
	"math/bits"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// falling returns records with descending stamps, as an insider can send them.
func falling(n int, change func() job.Change) []job.Rec {
	recs := make([]job.Rec, n)
	for i := range recs {
		recs[i] = rec(fmt.Sprintf("operation%06d", i), uint64(i+1), int64(n-i), change())
	}
	return recs
}

// The test counts comparisons and moves, not time. Moving each entry past all others would cost n*n/2.
func TestFoldingManyCostsNLogN(t *testing.T) {
	const n = 20_000
	limit := n * (bits.Len(n) + 8)
	door := "card/make/door"
	for _, row := range []struct {
		name   string
		change func() job.Change
	}{
		{"additions", func() job.Change { return job.Count(door, 1) }},
		{"counts by eye", func() job.Change {
			return job.Change{Kind: job.Stocktake, Entity: door, Value: []byte(`{"count":1}`)}
		}},
		{"a kind of a newer version", func() job.Change { return job.Change{Kind: "wave", Entity: door} }},
		{"a register", func() job.Change { return job.Put(door, "done", true) }},
	} {
		recs := falling(n, row.change)
		rising := make([]job.Rec, n)
		for i := range recs {
			rising[n-1-i] = recs[i]
		}
		alternating := make([]job.Rec, 0, n)
		for i := range n / 2 {
			alternating = append(alternating, recs[i], rising[i])
		}
		for order, recs := range map[string][]job.Rec{"falling": recs, "rising": rising, "from both ends": alternating} {
			compared, moved := job.Fold(recs...).Work()
			assert.LessOrEqual(t, compared, limit, "%s, %s", row.name, order)
			assert.LessOrEqual(t, moved, limit, "%s, %s", row.name, order)
		}
	}
}

func TestApplyAllEqualsApply(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		one := job.NewState()
		for _, r := range recs {
			one.Apply(r)
		}
		at := rapid.IntRange(0, len(recs)).Draw(t, "parted at")
		many := job.Fold(recs[:at]...)
		overlap := rapid.IntRange(0, at).Draw(t, "the second part begins earlier by")
		many.ApplyAll(recs[at-overlap:])
		require.Equal(t, text(t, one), text(t, many))
	})
}

// aside returns the owner's record that sets an operation aside, or restores it.
func aside(n int, op string, on bool) job.Rec {
	return rec(fmt.Sprintf("asideop%03d", n), uint64(1000+n), int64(100+n), job.SetAside(op, false, on, "")[0])
}

func TestSetAsideEqualsNeverMade(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		var without, with []job.Rec
		for n, r := range recs {
			with = append(with, r)
			switch rapid.IntRange(0, 3).Draw(t, "fate") {
			case 0:
				with = append(with, aside(n, r.ID, true))
				continue
			case 1: // set aside, then restored
				with = append(with, aside(n, r.ID, true), aside(500+n, r.ID, false))
			}
			without = append(without, r)
		}
		shuffled := rapid.Permutation(with).Draw(t, "shuffled")
		want, got := job.Fold(without...), job.Fold(shuffled...)
		require.False(t, got.Stale)
		require.Equal(t, text(t, job.Fold(with...)), text(t, got), "in any order")
		for entity := range got.Registers {
			if _, is := job.AsideOf(entity); is {
				delete(got.Registers, entity)
			}
		}
		got.First, got.Last = want.First, want.Last
		require.Equal(t, text(t, want), text(t, got))
	})
}

func TestStale(t *testing.T) {
	door := "card/make/door"
	tick := rec("operation1", 1, 10, job.Put(door, "done", true))
	s := job.Fold(tick)
	s.Apply(aside(1, tick.ID, true))
	assert.True(t, s.Stale, "the tick was folded before")
	assert.True(t, reload(t, s.Clone()).Stale)
	s = job.Fold(aside(1, tick.ID, true))
	s.Apply(tick)
	assert.False(t, s.Stale)
	assert.Nil(t, s.Register(door, "done").Value())
	s.Apply(aside(2, tick.ID, false))
	assert.True(t, s.Stale, "it counts again, but was not folded")
	nested := job.Fold(aside(1, tick.ID, true), aside(2, "asideop001", true), tick)
	assert.Nil(t, nested.Register(door, "done").Value(), "such a record cannot be set aside itself")
}
