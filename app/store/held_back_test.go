package store_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// handIn has a closed session's phone hand in counts of five, and gives their ids.
func handIn(t *testing.T, b *bench, session store.Session, id string, from, to int) (ids []string) {
	t.Helper()
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: b.now}
	for n := from; n <= to; n++ {
		ids = append(ids, fmt.Sprintf("operation%d", n))
		req.Ops = append(
			req.Ops,
			job.Op{ID: ids[len(ids)-1], Device: "phone", Number: uint64(n), Version: 1, Kind: job.Add,
				Entity: "card/make/door", Delta: 5, Wall: b.now - hour},
		)
	}
	resp, err := b.Sync(b.ctx, session, id, req)
	require.NoError(t, err)
	for _, a := range resp.Acks {
		require.Equal(t, sync.Quarantined, a.Result, a.Why)
	}
	return ids
}

func waiting(t *testing.T, b *bench, id string) []server.Held {
	t.Helper()
	held, err := b.Quarantine(id)
	require.NoError(t, err)
	return held
}

// handedIn is a store whose helper's link is revoked and whose phone has handed in six: 1 and 2 wait since before the
// backup, 3 was decided after it, 4 to 6 came after it, of which 5 is accepted and 6 ignored.
func handedIn(t *testing.T) (b *bench, owner, bea store.Session, id, backup string) {
	b = openStore(t)
	_, owner = b.owner(t)
	id = b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	b.now += hour
	early := handIn(t, b, bea, id, 1, 3)
	backup = filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	b.now += hour
	late := handIn(t, b, bea, id, 4, 6)
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, []string{early[2], late[1]}))
	require.NoError(t, b.IgnoreQuarantined(b.ctx, owner, id, late[2:]))
	return b, owner, bea, id, backup
}

func ids(held []server.Held) (all []string) {
	for _, h := range held {
		all = append(all, h.Op.ID)
	}
	return all
}

func TestARestoreKeepsWhatWasHandedIn(t *testing.T) {
	b, owner, bea, id, backup := handedIn(t)
	want := waiting(t, b, id)
	require.Equal(t, []string{"operation1", "operation2", "operation4"}, ids(want))
	require.NoError(t, b.Close())
	restored, err := store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, 1, restored.Held, "what came after the backup")
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id), "with its author, session and time; what was decided does not come back")
	assert.Equal(t, 10, b.read(t, id).Made("card/make/door"),
		"what was accepted is in the job, whether or not a phone comes back with it")
	handIn(t, b, bea, id, 6, 6) // it was ignored: handed in already
	assert.Equal(t, want, waiting(t, b, id))
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, ids(want)))
	assert.Equal(t, 25, b.read(t, id).Made("card/make/door"))
	b.now += hour
	require.NoError(t, b.Backup(b.ctx, filepath.Join(t.TempDir(), "again.db")))
}

// Without the database the journal alone brings back what waits, though it knows neither link nor session any more.
func TestAReplayKeepsWhatWasHandedIn(t *testing.T) {
	b, _, _, id, _ := handedIn(t)
	want := waiting(t, b, id)
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.DatabaseName)))
	result, err := store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, 3, result.Held)
	assert.Empty(t, result.Unreadable)
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id))
	assert.Equal(t, "Bea's phone", waiting(t, b, id)[0].Author.Name)
	_, owner := b.owner(t)
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, ids(want)))
	assert.Equal(t, 25, b.read(t, id).Made("card/make/door"))
}

// A job that the backup does not know comes back with what waits in it.
func TestARestoreKeepsWhatWasHandedInToALaterJob(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	backup := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	handIn(t, b, bea, id, 1, 2)
	phone := pull(t, b, owner, id, sync.Cursor{})
	want := waiting(t, b, id)
	require.NoError(t, b.Close())
	restored, err := store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, 2, restored.Held)
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id))
	now := pull(t, b, owner, id, sync.Cursor{})
	_, err = b.Sync(b.ctx, owner, id, sync.Request{V: sync.WireVersion, Device: "phone", Now: b.now,
		Cursor: sync.Cursor{Epoch: now.Epoch, Seq: now.Seq, Hash: now.Hash}, Heal: phone.Recs})
	require.NoError(t, err)
	assert.Equal(t, "Reading room reopening", b.read(t, id).Brief.Title, "the owner's phone heals the rest")
}

// A journal of an earlier build has no line of what was held. The first start of this build writes it.
func TestTheJournalOfAnEarlierBuildIsFilledIn(t *testing.T) {
	b, _, _, id, _ := handedIn(t)
	want := waiting(t, b, id)
	require.NoError(t, b.Close())
	journal := filepath.Join(b.dir, "ops-202701.ndjson")
	text, err := os.ReadFile(journal)
	require.NoError(t, err)
	var old bytes.Buffer
	for _, l := range bytes.SplitAfter(text, []byte("\n")) {
		var fields map[string]json.RawMessage
		if json.Unmarshal(l, &fields) == nil && fields["rec"] != nil {
			old.Write(l)
		}
	}
	require.NoError(t, os.WriteFile(journal, old.Bytes(), 0o600))
	store.ForgetTold(t, b.dir)
	b.reopen(t)
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.DatabaseName)))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id))
}
