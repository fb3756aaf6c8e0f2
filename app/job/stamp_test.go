package job_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
)

// Operations with equal times are ordered by device, then number, then id. Phones and stored snapshots rely on this
// order, so it can never change.
func TestTieOrderOfStamps(t *testing.T) {
	for _, row := range []struct {
		name          string
		earlier, last job.Stamp
	}{
		{"time comes first", job.Stamp{Effective: 1, Device: "z", Number: 9, ID: "z"},
			job.Stamp{Effective: 2, Device: "a", Number: 1, ID: "a"}},
		{"then the device", job.Stamp{Effective: 5, Device: "a", Number: 9, ID: "z"},
			job.Stamp{Effective: 5, Device: "b", Number: 1, ID: "a"}},
		{"devices as text", job.Stamp{Effective: 5, Device: "a10", Number: 9, ID: "z"},
			job.Stamp{Effective: 5, Device: "a9", Number: 1, ID: "a"}},
		{"then the number", job.Stamp{Effective: 5, Device: "a", Number: 9, ID: "z"},
			job.Stamp{Effective: 5, Device: "a", Number: 10, ID: "a"}},
		{"then the id", job.Stamp{Effective: 5, Device: "a", Number: 9, ID: "y"},
			job.Stamp{Effective: 5, Device: "a", Number: 9, ID: "z"}},
		{"times before 1970", job.Stamp{Effective: -2, Device: "z", Number: 9, ID: "z"},
			job.Stamp{Effective: -1, Device: "a", Number: 1, ID: "a"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.True(t, row.earlier.Less(row.last))
			assert.False(t, row.last.Less(row.earlier))
			assert.False(t, row.last.Less(row.last), "a stamp does not come before itself")
			checkTie(t, row.earlier, row.last)
		})
	}
}

// checkTie folds two operations in both orders of arrival. The later stamp's value wins, and lists are in stamp order.
func checkTie(t *testing.T, earlier, last job.Stamp) {
	t.Helper()
	change := func(at job.Stamp, c job.Change) job.Rec {
		return job.Rec{
			Op: job.Op{ID: at.ID, Device: at.Device, Number: at.Number, Version: 1, Kind: c.Kind, Entity: c.Entity,
				Field: c.Field, Value: c.Value, Delta: c.Delta},
			Effective: at.Effective,
		}
	}
	stocktake := func(n int64) job.Change {
		c := job.Put("card/make/door", "", job.Counted{N: n})
		c.Kind = job.Stocktake
		return c
	}
	for _, reversed := range []bool{false, true} {
		a := []job.Rec{change(earlier, job.Put("piece/door", "name", "Earlier")),
			change(earlier, job.Count("card/make/hall", 1)), change(earlier, stocktake(1))}
		b := []job.Rec{change(last, job.Put("piece/door", "name", "Last")), change(last, job.Count("card/make/hall", 2)),
			change(last, stocktake(2))}
		for _, recs := range [][]job.Rec{a, b} {
			for i := range recs {
				if recs[i].Kind == "" {
					recs[i].Kind = job.Set
				}
			}
		}
		if reversed {
			a, b = b, a
		}
		state := job.Fold(append(a, b...)...)
		name := fmt.Sprintf("reversed: %v", reversed)
		assert.Equal(t, `"Last"`, string(state.Register("piece/door", "name").Value()), name)
		live := state.Tally("card/make/hall").Live()
		if assert.Len(t, live, 2, name) {
			assert.Equal(t, []int64{1, 2}, []int64{live[0].Delta, live[1].Delta}, name)
		}
		assert.EqualValues(t, 2, state.Tally("card/make/door").Total(), name)
	}
}
