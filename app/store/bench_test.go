package store_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// load makes the operations of a big event: 400 cards and pack lines, ticked and counted repeatedly.
func load(from, count int) []job.Op {
	ops := make([]job.Op, count)
	for i := range ops {
		n := from + i
		op := job.Op{ID: fmt.Sprintf("operation-%016d", n), Device: fmt.Sprintf("phone%d", n%5),
			Number: uint64(n + 1), Version: 1, Wall: start + int64(n)}
		switch n % 4 {
		case 0:
			op.Kind, op.Entity, op.Delta = job.Add, fmt.Sprintf("card/make/%d", n%100), int64(n%12+1)
		case 1:
			op.Kind, op.Entity, op.Field, op.Value = job.Set, fmt.Sprintf("pack/latex/11/%d", n%200), "have",
				[]byte(fmt.Sprint(n%90))
		default:
			op.Kind, op.Entity, op.Field, op.Value = job.Set, fmt.Sprintf("card/site/%d", n%200), "done",
				[]byte(fmt.Sprint(n%3 > 0))
		}
		ops[i] = op
	}
	return ops
}

func post(b testing.TB, s *bench, owner store.Session, id string, ops []job.Op) {
	b.Helper()
	for len(ops) > 0 {
		part := ops[:min(len(ops), sync.MaxOps)]
		ops = ops[len(part):]
		resp, err := s.Sync(s.ctx, owner, id,
			sync.Request{V: sync.WireVersion, Device: "phone", Now: s.now, Max: 1, Ops: part})
		require.NoError(b, err)
		for _, a := range resp.Acks {
			require.Equal(b, sync.OK, a.Result, a.Why)
		}
	}
}

// Budget: at most 50 ms.
func BenchmarkSyncOf500(b *testing.B) {
	s := openStore(b)
	_, owner := s.owner(b)
	id := s.job(b, owner)
	n := 0
	for b.Loop() {
		post(b, s, owner, id, load(n, 500))
		n += 500
	}
}

// One tick on a job of 10,000 operations, with the pull of its record.
func BenchmarkSyncOfOne(b *testing.B) {
	s := openStore(b)
	_, owner := s.owner(b)
	id := s.job(b, owner)
	post(b, s, owner, id, load(0, 10_000))
	n := 10_000
	for b.Loop() {
		post(b, s, owner, id, load(n, 1))
		n++
	}
}

// Opening a job of 10,000 operations: after a start, from its snapshot, and in memory.
func BenchmarkOpenOf10000(b *testing.B) {
	s := openStore(b)
	_, owner := s.owner(b)
	id := s.job(b, owner)
	post(b, s, owner, id, load(0, 10_000))
	open := func(b *testing.B) {
		for b.Loop() {
			s.ForgetStates()
			_, _, err := s.State(id)
			require.NoError(b, err)
		}
	}
	_, _, err := s.State(id) // writes the snapshot
	require.NoError(b, err)
	post(b, s, owner, id, load(10_000, 400))
	b.Run("snapshot and tail of 400", open)
	b.Run("in memory, one new operation", func(b *testing.B) {
		n := 20_000
		for b.Loop() {
			post(b, s, owner, id, load(n, 1))
			n++
			_, _, err := s.State(id)
			require.NoError(b, err)
		}
	})
}

// A snapshot with the rest of the log gives the same job as the whole log.
func TestSnapshotAndTailEqualTheLog(t *testing.T) {
	s := openStore(t)
	_, owner := s.owner(t)
	id := s.job(t, owner)
	for n := 0; n < 3300; n += 300 {
		post(t, s, owner, id, load(n, 300))
		if n%900 == 0 {
			_, _, err := s.State(id)
			require.NoError(t, err)
		}
		s.ForgetStates()
	}
	got, _, err := s.State(id)
	require.NoError(t, err)
	var recs []job.Rec
	require.NoError(t, s.Look(id, func(l server.Ledger) (err error) {
		recs, err = l.Read(1, 1<<30)
		return err
	}))
	want := job.Fold(recs...)
	require.Equal(t, job.Read(id, want, nil).Brief, job.Read(id, got, nil).Brief)
	sameState(t, want, got)
}

func TestFoldedStatesAreLimited(t *testing.T) {
	s := openStore(t)
	_, owner := s.owner(t)
	var jobs []string
	for range store.StatesKept + 5 {
		jobs = append(jobs, s.job(t, owner))
	}
	for _, id := range append(jobs, jobs...) {
		require.Equal(t, "Reading room reopening", s.read(t, id).Brief.Title)
		assert.LessOrEqual(t, s.Folded(), store.StatesKept)
	}
}
