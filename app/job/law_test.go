package job_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestTheOrderOfArrivalDoesNotMatter(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		shuffled := rapid.Permutation(recs).Draw(t, "shuffled")
		require.Equal(t, text(t, job.Fold(recs...)), text(t, job.Fold(shuffled...)))
	})
}

func TestRepeatsDoNotMatter(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		again := append([]job.Rec{}, recs...)
		for range rapid.IntRange(0, 2*len(recs)).Draw(t, "repeats") {
			again = append(again, rapid.SampledFrom(recs).Draw(t, "repeated"))
		}
		require.Equal(t, text(t, job.Fold(recs...)), text(t, job.Fold(rapid.Permutation(again).Draw(t, "shuffled")...)))
	})
}

func TestSnapshotAndTail(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		at := rapid.IntRange(0, len(recs)).Draw(t, "snapshot at")
		state := reload(t, job.Fold(recs[:at]...))
		overlap := rapid.IntRange(0, at).Draw(t, "tail begins earlier by")
		for _, r := range recs[at-overlap:] {
			state.Apply(r)
			if rapid.Bool().Draw(t, "stored again") {
				state = reload(t, state)
			}
		}
		require.Equal(t, text(t, job.Fold(recs...)), text(t, state))
	})
}

func TestCloneIsIndependent(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		at := rapid.IntRange(0, len(recs)).Draw(t, "cloned at")
		state := job.Fold(recs[:at]...)
		before := text(t, state)
		clone := state.Clone()
		require.Equal(t, before, text(t, clone))
		for _, r := range recs[at:] {
			clone.Apply(r)
		}
		require.Equal(t, before, text(t, state), "the original is unchanged")
		require.Equal(t, text(t, job.Fold(recs...)), text(t, clone))
	})
}

// The test computes the winner of a register and the total of a tally from their definitions.
func TestFoldMatchesItsDefinition(t *testing.T) {
	property(t, func(t *rapid.T, recs []job.Rec) {
		state := job.Fold(recs...)
		winners := map[[2]string]job.Rec{}
		undone := map[[2]string]bool{}
		for _, r := range recs {
			key := [2]string{r.Entity, r.Field}
			if first, there := winners[key]; r.Kind == job.Set && (!there || first.Stamp().Less(r.Stamp())) {
				winners[key] = r
			}
			undone[key] = undone[key] || r.Kind == job.Undo
		}
		for key, r := range winners {
			readings := state.Register(key[0], key[1]).Readings
			require.Equal(t, r.ID, readings[0].ID)
			require.Equal(t, r.Author, readings[0].Author)
			require.LessOrEqual(t, len(readings), 6, "the number of losers is limited")
		}
		for _, entity := range []string{"card/make/door", "card/site/hang", "piece/door"} {
			require.Equal(t, tallyByDefinition(recs, entity, undone), state.Tally(entity).Total(), entity)
		}
	})
}

func tallyByDefinition(recs []job.Rec, entity string, undone map[[2]string]bool) int64 {
	var last *job.Rec
	for i, r := range recs {
		if r.Kind == job.Stocktake && r.Entity == entity && !undone[[2]string{entity, r.ID}] &&
			(last == nil || last.Stamp().Less(r.Stamp())) {
			last = &recs[i]
		}
	}
	total, covered := int64(0), map[string]bool{}
	if last != nil {
		s := job.Fold(*last)
		total = s.Tally(entity).Counts[0].N
		for _, id := range s.Tally(entity).Counts[0].Covers {
			covered[id] = true
		}
	}
	for _, r := range recs {
		if r.Kind == job.Add && r.Entity == entity && !covered[r.ID] && !undone[[2]string{entity, r.ID}] {
			total += r.Delta
		}
	}
	return total
}

func rec(id string, number uint64, effective int64, c job.Change) job.Rec {
	r := job.Rec{
		Op: job.Op{ID: id, Device: "phone", Number: number, Version: 1, Kind: c.Kind, Entity: c.Entity,
			Field: c.Field, Value: c.Value, Delta: c.Delta},
		Effective: effective,
	}
	if r.Kind == "" {
		r.Kind = job.Set
	}
	return r
}

func TestUndoneTwiceCountsOnce(t *testing.T) {
	door := "card/make/door"
	s := job.Fold(rec("operation1", 1, 10, job.Count(door, 5)), rec("operation2", 2, 11, job.Count(door, 7)),
		rec("operation3", 3, 12, job.TakeBack(door, "operation1")),
		rec("operation4", 4, 13, job.TakeBack(door, "operation1")))
	assert.EqualValues(t, 7, s.Tally(door).Total())
	require.Len(t, s.Tally(door).Live(), 1)
	early := job.Fold(rec("operation3", 3, 12, job.TakeBack(door, "operation1")),
		rec("operation1", 1, 10, job.Count(door, 5)))
	assert.Zero(t, early.Tally(door).Total(), "even if the undo arrives first")
}

func TestTallyMayBeNegative(t *testing.T) {
	door := "card/make/door"
	s := job.Fold(rec("operation1", 1, 1, job.Count(door, 3)), rec("operation2", 2, 2, job.Count(door, -5)))
	assert.EqualValues(t, -2, s.Tally(door).Total())
	assert.Zero(t, job.Read("x", s, nil).Made(door), "the displayed count stops at zero")
	s.Apply(rec("operation3", 3, 3, job.Count(door, 4)))
	assert.Equal(t, 2, job.Read("x", s, nil).Made(door))
}

func TestStocktakeReplacesWhatItCovers(t *testing.T) {
	door := "card/make/door"
	s := job.Fold(rec("operation1", 1, 1, job.Count(door, 9)), rec("operation2", 2, 2, job.Count(door, 9)))
	counted := rec("operation3", 3, 3, job.CountedAs(s, door, 16)[0])
	s.Apply(counted)
	assert.EqualValues(t, 16, s.Tally(door).Total())
	s.Apply(rec("operation4", 4, 2, job.Count(door, 2))) // made elsewhere before the count, which had not seen it
	assert.EqualValues(t, 18, s.Tally(door).Total())
	s.Apply(rec("operation5", 5, 5, job.TakeBack(door, "operation3")))
	assert.EqualValues(t, 20, s.Tally(door).Total(), "a count can be undone too")
}

// One operation covers at most MaxCovers additions. With more, a count adds the difference.
func TestStocktakeOfManyAdditions(t *testing.T) {
	door := "card/make/door"
	s := job.NewState()
	for n := range job.MaxCovers + 1 {
		s.Apply(rec(fmt.Sprintf("operation%05d", n), uint64(n+1), int64(n+1), job.Count(door, 1)))
	}
	for step, n := range []int64{12, 12, 500000} {
		for i, c := range job.CountedAs(s, door, n) {
			require.NoError(t, job.CheckChange(c))
			s.Apply(rec(fmt.Sprintf("counting-%d-%d", step, i), uint64(3000+10*step+i), int64(5000+10*step+i), c))
		}
		assert.EqualValues(t, n, s.Tally(door).Total())
	}
	s.Apply(rec("operation99999", 9999, 9999, job.TakeBack(door, "operation00000")))
	assert.Equal(t, job.MaxCovers+6, len(s.Tally(door).Live()),
		"one addition is undone, and counting added six")
}

func TestUnknownKindsAreKeptAndCarried(t *testing.T) {
	newer := rec("operation1", 1, 5, job.Change{Kind: "photo", Entity: "card/make/door", Value: []byte(`{"hash":"abc"}`)})
	newer.Version = 9
	require.NoError(t, newer.Check())
	s := reload(t, job.Fold(newer))
	require.Len(t, s.Unknown, 1)
	assert.Equal(t, newer, s.Unknown[0])
	assert.EqualValues(t, 5, s.Last)
}

func TestUnsentOperationWinsOnItsPhone(t *testing.T) {
	door := "card/make/door"
	s := job.Fold(rec("operation1", 1, 1_800_000_000_000, job.Put(door, "done", true)))
	mine := rec("operation2", 2, 0, job.Put(door, "done", false)).Op
	mine.Wall = -5 // a clock far behind
	s.Apply(job.PendingRec(mine, job.Author{Name: "Bea"}))
	reg := s.Register(door, "done")
	assert.Equal(t, "false", string(reg.Value()))
	assert.True(t, reg.Readings[0].Pending())
	assert.EqualValues(t, 1_800_000_000_000, s.Last, "it did not come from the server")
}

func TestOpWriterParents(t *testing.T) {
	door, clock := "card/make/door", int64(100)
	ids := 0
	w := job.OpWriter{Device: "phone", Now: func() int64 { return clock },
		NewID: func() string { ids++; return []string{"", "first", "second", "third"}[ids] }}
	s := job.Fold(rec("operation1", 1, 50, job.Put(door, "done", true)),
		rec("operation0", 9, 40, job.Put(door, "done", false)))
	one := w.Write(s, job.Put(door, "done", false))
	assert.Equal(t, []string{"operation1"}, one.Parents, "the winner, not the losers")
	s.Apply(job.PendingRec(one, job.Author{}))
	clock = 20 // the clock goes back
	two := w.Write(s, job.Put(door, "done", true))
	assert.Equal(t, []string{"first", "operation1"}, two.Parents,
		"the author's unsent one, and the accepted winner below it")
	assert.EqualValues(t, 2, two.Number)
	assert.EqualValues(t, 20, two.Wall)
	assert.EqualValues(t, 1, two.Counter)
	three := w.Write(nil, job.Count(door, 1))
	assert.Empty(t, three.Parents)
	for _, op := range []job.Op{one, two, three} {
		op.ID += "00000000"
		assert.NoError(t, op.Check())
	}
}

func BenchmarkFoldOf10000(b *testing.B) {
	recs := make([]job.Rec, 10_000)
	for n := range recs {
		c := job.Put("card/site/"+string(rune('a'+n%26))+string(rune('a'+n/26%16)), "done", n%3 == 0)
		if n%4 == 0 {
			c = job.Count("card/make/"+string(rune('a'+n%26)), 1)
		}
		recs[n] = rec("operation"+string(rune('a'+n%26))+string(rune('a'+n/26%26))+string(rune('a'+n/676)), uint64(n+1),
			int64(n+1), c)
	}
	var state *job.State
	b.Run("fold", func(b *testing.B) {
		for b.Loop() {
			state = job.Fold(recs...)
		}
	})
	b.Run("clone", func(b *testing.B) {
		for b.Loop() {
			state.Clone()
		}
	})
}
