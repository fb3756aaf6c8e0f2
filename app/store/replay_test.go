package store_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// worked returns a closed store with two jobs that an owner and a helper changed over a month's end, and the states of
// both.
func worked(t *testing.T) (b *bench, jobs []string, want []*job.State) {
	b = openStore(t)
	_, owner := b.owner(t)
	for range 2 {
		jobs = append(jobs, b.job(t, owner))
	}
	b.now += 40 * day
	_, owner = b.owner(t)
	for range 3 {
		_, err := b.Write(b.ctx, owner, jobs[0],
			[]job.Change{job.Count("card/make/door", 5), job.Put("own/contact", "phone", "0000")})
		require.NoError(t, err)
	}
	_, _, helper := b.helper(t, owner, jobs[0], "Ines", job.Helper)
	_, err := b.Write(b.ctx, helper, jobs[0], []job.Change{job.Put("card/look", "done", true)})
	require.NoError(t, err)
	for _, id := range jobs {
		shared, private, err := b.State(id)
		require.NoError(t, err)
		want = append(want, shared.Clone(), private.Clone())
	}
	require.NoError(t, b.Close())
	return b, jobs, want
}

func states(t *testing.T, s *store.Store, jobs []string) (got []*job.State) {
	t.Helper()
	for _, id := range jobs {
		shared, private, err := s.State(id)
		require.NoError(t, err)
		got = append(got, shared, private)
	}
	return got
}

func TestReplay(t *testing.T) {
	b, jobs, want := worked(t)
	database := filepath.Join(b.dir, store.DatabaseName)
	_, err := store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.ErrorIs(t, err, fs.ErrExist, "a database is never overwritten")
	require.NoError(t, os.Rename(database, database+".damaged"))

	result, err := store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, store.Replayed{Operations: 2*5 + 6 + 1, Jobs: 2}, result)
	b.reopen(t)
	for i, got := range states(t, b.Store, jobs) {
		sameState(t, want[i], got)
	}
	_, owner := b.owner(t)
	_, err = b.Write(b.ctx, owner, jobs[0], []job.Change{job.Put("brief", "title", "After the replay")})
	require.NoError(t, err, "writing works again")
	left, err := filepath.Glob(filepath.Join(b.dir, ".replay-*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

// A phone that is ahead of the replayed log sends back the records that it lacks.
func TestPhonesHealAfterAReplay(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	journal := filepath.Join(b.dir, "ops-202701.ndjson")
	before, err := os.ReadFile(journal)
	require.NoError(t, err)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Count("card/make/door", 5)})
	require.NoError(t, err)
	phone := pull(t, b, owner, id, sync.Cursor{})
	want, _, err := b.State(id)
	require.NoError(t, err)
	want = want.Clone()
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.DatabaseName)))
	require.NoError(t, os.WriteFile(journal, before, 0o600))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	_, owner = b.owner(t)
	assert.True(t, pull(t, b, owner, id, sync.Cursor{Epoch: phone.Epoch, Seq: phone.Seq, Hash: phone.Hash}).Rewound)
	now := pull(t, b, owner, id, sync.Cursor{})
	assert.Len(t, now.Recs, len(phone.Recs)-1)
	resp, err := b.Sync(b.ctx, owner, id, sync.Request{V: sync.WireVersion, Device: "phone", Now: b.now,
		Cursor: sync.Cursor{Epoch: now.Epoch, Seq: now.Seq, Hash: now.Hash}, Heal: phone.Recs})
	require.NoError(t, err)
	assert.Len(t, resp.Recs, 1)
	got, _, err := b.State(id)
	require.NoError(t, err)
	sameState(t, want, got)
}

// A replay skips and names lines that a power failure cut off, in the middle and at the end.
func TestReplaySkipsTruncatedLines(t *testing.T) {
	b, jobs, want := worked(t)
	require.NoError(t, os.Rename(filepath.Join(b.dir, store.DatabaseName), filepath.Join(b.dir, "old")))
	first, last := filepath.Join(b.dir, "ops-202701.ndjson"), filepath.Join(b.dir, "ops-202702.ndjson")
	text, err := os.ReadFile(first)
	require.NoError(t, err)
	lines := bytes.SplitAfter(text, []byte("\n"))
	require.NoError(t, os.WriteFile(first, bytes.Join([][]byte{lines[0], []byte(`{"log":"cut off by a power fail` + "\n"),
		bytes.Join(lines[1:], nil)}, nil), 0o600))
	text, err = os.ReadFile(last)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(last, text[:len(text)-20], 0o600))

	result, err := store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	assert.True(t, result.CutOff)
	assert.Equal(t, []string{"ops-202701.ndjson line 2", "ops-202702.ndjson line 7"}, result.Unreadable)
	assert.Equal(t, 2*5+6, result.Operations)
	b.reopen(t)
	got := states(t, b.Store, jobs)
	assert.False(t, job.Read(jobs[0], got[0], got[1]).Done("card/look"), "the helper's tick was in the truncated line")
	for i := 1; i < len(want); i++ {
		sameState(t, want[i], got[i])
	}
}

// A replay to a new directory copies the journal and its key. It refuses a directory that has a journal of its own.
func TestReplayOnANewMachine(t *testing.T) {
	b, jobs, want := worked(t)
	dir := filepath.Join(t.TempDir(), "new", "place [1]")
	result, err := store.Replay(b.ctx, b.dir, dir, b.options())
	require.NoError(t, err)
	assert.False(t, result.NewKey)
	s, err := store.Open(dir, b.options())
	require.NoError(t, err)
	for i, got := range states(t, s, jobs) {
		sameState(t, want[i], got)
	}
	require.NoError(t, s.Close())
	for _, name := range []string{"ops-202701.ndjson", "ops-202702.ndjson", store.KeyName} {
		from, err := os.ReadFile(filepath.Join(b.dir, name))
		require.NoError(t, err)
		to, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		assert.Equal(t, from, to, name)
	}
	require.NoError(t, os.Remove(filepath.Join(dir, store.DatabaseName)))
	_, err = store.Replay(b.ctx, b.dir, dir, b.options())
	assert.ErrorIs(t, err, fs.ErrExist)
	assert.ErrorContains(t, err, "journal of its own")
	result, err = store.Replay(b.ctx, filepath.Join(dir, "ops-202701.ndjson"), dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, store.Replayed{Operations: 10, Jobs: 2}, result, "a single file")
}

func TestInvalidJournalIsNotReplayed(t *testing.T) {
	b := openStore(t)
	empty, dir := t.TempDir(), filepath.Join(t.TempDir(), "not made")
	junk := filepath.Join(empty, "notes.txt")
	_, err := store.Replay(b.ctx, empty, dir, b.options())
	assert.ErrorIs(t, err, fs.ErrNotExist)
	require.NoError(t, os.WriteFile(junk, []byte("Buy ribbon\n{\"log\":\"../..\",\"rec\":{\"i\":\"x\"}}\n"), 0o600))
	_, err = store.Replay(b.ctx, junk, dir, b.options())
	assert.ErrorIs(t, err, store.ErrDamaged)
	assert.NoDirExists(t, dir)
}
