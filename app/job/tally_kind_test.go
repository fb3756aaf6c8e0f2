package job_test

import (
	"encoding/json"
	"strings"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestTalliesByKind(t *testing.T) {
	const door = "card/make/door"
	keys := []string{"a", "b", "c"}
	counted := func(n int64, covers ...string) job.Change {
		c := job.Put(door, "", job.Counted{N: n, Covers: covers})
		c.Kind = job.Stocktake
		return c
	}
	a4, b3, plain2 := job.CountOf(door, 4, "a"), job.CountOf(door, 3, "b"), job.Count(door, 2)
	for _, row := range []struct {
		name    string
		changes []job.Change // their operations are named operation0, operation1 and so on
		want    []int
		total   int64
	}{
		{"nothing", nil, []int{0, 0, 0}, 0},
		{"without kinds", []job.Change{plain2}, []int{0, 0, 0}, 2},
		{"two kinds and some without", []job.Change{a4, b3, plain2}, []int{4, 3, 0}, 9},
		{"a kind that is no longer", []job.Change{a4, job.CountOf(door, 5, "old")}, []int{4, 0, 0}, 9},
		{"one taken off", []job.Change{a4, b3, job.CountOf(door, -1, "a")}, []int{3, 3, 0}, 6},
		{"undone", []job.Change{a4, b3, job.TakeBack(door, "operation0")}, []int{0, 3, 0}, 3},
		{"more off than there were", []job.Change{a4, job.CountOf(door, -9, "b")}, []int{0, 0, 0}, -5},
		{"taken off without a kind", []job.Change{a4, b3, job.Count(door, -2)}, []int{4, 1, 0}, 5},
		{"a count by eye of more", []job.Change{a4, b3, counted(9, "operation0", "operation1")}, []int{4, 3, 0}, 9},
		{"of fewer: the last kinds lose", []job.Change{a4, b3, counted(5, "operation0", "operation1")}, []int{4, 1, 0}, 5},
		{"of none", []job.Change{a4, b3, counted(0, "operation0", "operation1")}, []int{0, 0, 0}, 0},
		{"then one more of a kind that lost", []job.Change{a4, b3, counted(2, "operation0", "operation1"),
			job.CountOf(door, 1, "b")}, []int{2, 1, 0}, 3},
		{"with an addition that it did not see", []job.Change{a4, b3, counted(3, "operation0")}, []int{3, 3, 0}, 6},
	} {
		t.Run(row.name, func(t *testing.T) {
			recs := make([]job.Rec, len(row.changes))
			for i, c := range row.changes {
				require.NoError(t, job.CheckChange(c))
				recs[i] = rec("operation"+string(rune('0'+i)), uint64(i+1), int64(i+1), c)
			}
			tally := job.Fold(recs...).Tally(door)
			assert.Equal(t, row.want, tally.ByKind(keys))
			assert.Equal(t, row.total, tally.Total())
		})
	}
}

// A build that knows no kinds sees an addition and nothing else, so that totals agree.
func TestKindsDoNotChangeTotals(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		plain := append([]job.Rec(nil), recs...)
		for i := range plain {
			if plain[i].Kind == job.Add {
				plain[i].Value = nil
			}
		}
		with, without := job.Fold(recs...), job.Fold(plain...)
		for entity, tally := range with.Tallies {
			require.Equal(t, without.Tally(entity).Total(), tally.Total(), entity)
		}
	})
}

// Whatever was counted, the kinds are parts of the total, and the same from every order of the operations.
func TestKindsArePartsOfTheTotal(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		keys := []string{"a", "b"}
		other := job.Fold(rapid.Permutation(recs).Draw(t, "shuffled")...)
		for entity, tally := range job.Fold(recs...).Tallies {
			sum := int64(0)
			for _, n := range tally.ByKind(keys) {
				require.GreaterOrEqual(t, n, 0)
				sum += int64(n)
			}
			require.LessOrEqual(t, sum, max(0, tally.Total()), entity)
			require.Equal(t, tally.ByKind(keys), other.Tally(entity).ByKind(keys), entity)
		}
	})
}

func TestKeysOfKinds(t *testing.T) {
	for key, valid := range map[string]bool{"11/coral/2+18/sand/1": true, "": false, "a b": false, "ä": false,
		"a\n":                                 false,
		strings.Repeat("x", job.MaxTallyKind): true, strings.Repeat("x", job.MaxTallyKind+1): false} {
		assert.Equal(t, valid, job.ValidTallyKind(key), key)
		raw, err := json.Marshal(key)
		require.NoError(t, err)
		add := job.Count("card/make/door", 1)
		add.Value = raw
		of := job.Fold(rec("operation1", 1, 1, add)).Tally("card/make/door").Entries[0].Of
		assert.Equal(t, valid, of != "", "what cannot be a key is none: %q", key)
	}
}
