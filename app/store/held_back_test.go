package store_test

import (
	"bytes"
	"encoding/json"
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

// sendHeld sends counts of five from a closed session's phone and returns their ids.
func sendHeld(t *testing.T, b *bench, session store.Session, id string, from, to int) (ids []string) {
	t.Helper()
	var ops []job.Op
	for n := from; n <= to; n++ {
		ops = append(ops, addition(uint64(n), 5, b.now-hour))
	}
	for _, a := range b.send(t, session, id, ops...).Acks {
		require.Equal(t, sync.Quarantined, a.Result, a.Why)
		ids = append(ids, a.ID)
	}
	return ids
}

func waiting(t *testing.T, b *bench, id string) []server.Held {
	t.Helper()
	held, err := b.Quarantine(id)
	require.NoError(t, err)
	return held
}

// withQuarantine returns a store with six operations of a revoked helper: 1 to 3 came before the backup and 4 to 6
// after it. After the backup 3 and 5 were accepted and 6 ignored.
func withQuarantine(t *testing.T) (b *bench, owner, bea store.Session, id, backup string) {
	b = openStore(t)
	_, owner = b.owner(t)
	id = b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	b.now += hour
	early := sendHeld(t, b, bea, id, 1, 3)
	backup = filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	b.now += hour
	late := sendHeld(t, b, bea, id, 4, 6)
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

func TestRestoreKeepsTheQuarantine(t *testing.T) {
	b, owner, bea, id, backup := withQuarantine(t)
	want := waiting(t, b, id)
	require.Equal(t, []string{"operation1", "operation2", "operation4"}, ids(want))
	require.NoError(t, b.Close())
	restored, err := store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, 1, restored.Held, "the one that came after the backup")
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id), "with its author, session and time; decided ones do not come back")
	assert.Equal(t, 10, b.read(t, id).Made("card/make/door"),
		"accepted ones are in the job, even without their phone")
	sendHeld(t, b, bea, id, 6, 6) // ignored before
	assert.Equal(t, want, waiting(t, b, id))
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, ids(want)))
	assert.Equal(t, 25, b.read(t, id).Made("card/make/door"))
	b.now += hour
	require.NoError(t, b.Backup(b.ctx, filepath.Join(t.TempDir(), "again.db")))
}

// The journal alone restores the quarantine, although links and sessions are lost.
func TestReplayKeepsTheQuarantine(t *testing.T) {
	b, _, _, id, _ := withQuarantine(t)
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

// A job that is newer than the backup comes back with its quarantine.
func TestRestoreKeepsTheQuarantineOfALaterJob(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	backup := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	sendHeld(t, b, bea, id, 1, 2)
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
	assert.Equal(t, "Reading room reopening", b.read(t, id).Brief.Title, "the owner's phone sends the rest")
}

// A journal of an earlier build has no lines of the quarantine. The first start of this build writes them.
func TestJournalOfAnEarlierBuildIsCompleted(t *testing.T) {
	b, _, _, id, _ := withQuarantine(t)
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
	store.ForgetHeldJournaled(t, b.dir)
	b.reopen(t)
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.DatabaseName)))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	assert.Equal(t, want, waiting(t, b, id))
}
