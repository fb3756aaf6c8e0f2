package store_test

import (
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestADeletedJobCanBeRestoredForThirtyDays deletes a job under a helper whose phone was offline. What the helper and
// another phone of the owner send then is kept, and restoring brings back all of it.
func TestADeletedJobCanBeRestoredForThirtyDays(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.Equal(t, sync.OK, b.send(t, bea, id, addition(1, 5, start)).Acks[0].Result)
	assert.ErrorIs(t, b.DeleteJob(b.ctx, bea, id), store.ErrForbidden)
	assert.ErrorIs(t, b.DeleteJob(b.ctx, owner, "nothere"), store.ErrNotFound)
	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	require.NoError(t, b.DeleteJob(b.ctx, owner, id), "twice is once")

	jobs, err := b.Jobs(owner)
	require.NoError(t, err)
	assert.Empty(t, jobs)
	_, _, err = b.State(id)
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, _, err = b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Olek", Role: job.Helper, Ends: b.now + day})
	assert.ErrorIs(t, err, store.ErrNotFound)
	closed, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Ended, closed.Closed, "the link is closed, not unknown")

	b.now += 29 * day
	late := b.send(t, closed, id, addition(2, 4, start))
	assert.Equal(t, sync.OK, late.Acks[0].Result, "it was made before the job was deleted")
	assert.Empty(t, late.Recs, "a closed link gets nothing")
	mine := addition(1, 3, start)
	mine.ID, mine.Device = "operation-mine", "tablet"
	assert.Equal(t, sync.OK, b.send(t, owner, id, mine).Acks[0].Result)

	deleted, err := b.Deleted(owner)
	require.NoError(t, err)
	assert.Equal(t, []store.Deleted{{ID: id, Title: "Reading room reopening", Date: "2027-05-08", At: start,
		Ends: start + 30*day}}, deleted)
	_, err = b.Deleted(closed)
	assert.ErrorIs(t, err, store.ErrForbidden)
	assert.ErrorIs(t, b.RestoreJob(b.ctx, closed, id), store.ErrForbidden)
	removed, err := b.RemoveDeleted()
	require.NoError(t, err)
	assert.Empty(t, removed, "a day is left")
	require.NoError(t, b.RestoreJob(b.ctx, owner, id))
	back := b.read(t, id)
	assert.Equal(t, []any{"Reading room reopening", "Town library", 12},
		[]any{back.Brief.Title, back.Contact.Name, back.Made("card/make/door")})
	deleted, err = b.Deleted(owner)
	require.NoError(t, err)
	assert.Empty(t, deleted)
	links, err := b.Links(id)
	require.NoError(t, err)
	assert.Equal(t, link.ID, links[0].ID)
	assert.ErrorIs(t, b.RestoreJob(b.ctx, owner, id), store.ErrNotFound, "it is not deleted")
}

// TestADeletedJobIsRemovedForGood lets the thirty days pass. No phone and no backup brings the job back then, and its
// logs are no longer in the database.
func TestADeletedJobIsRemovedForGood(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id, other := b.job(t, owner), b.job(t, owner)
	_, token, _ := b.helper(t, owner, id, "Bea", job.Helper)
	backup := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	b.now += 30 * day
	assert.ErrorIs(t, b.RestoreJob(b.ctx, owner, id), store.ErrJobGone)
	removed, err := b.RemoveDeleted()
	require.NoError(t, err)
	assert.Equal(t, []string{id}, removed)
	check := func() {
		t.Helper()
		op := addition(7, 3, start)
		op.Device = "tablet"
		for _, log := range []string{id, id + sync.OwnSuffix} {
			_, err := b.Sync(b.ctx, owner, log, sync.Request{V: sync.WireVersion, Device: "tablet", Now: b.now,
				Ops: []job.Op{op}})
			assert.ErrorIs(t, err, store.ErrJobGone, "a phone that comes late is told, and makes no new job")
			assert.ErrorIs(t, b.Look(log, nil), store.ErrNotFound, "the log is no longer there")
		}
		_, err := b.CreateJob(b.ctx, owner, id, nil)
		assert.ErrorIs(t, err, store.ErrJobGone)
		assert.ErrorIs(t, b.DeleteJob(b.ctx, owner, id), store.ErrJobGone)
		deleted, err := b.Deleted(owner)
		require.NoError(t, err)
		assert.Equal(t, []store.Deleted{{ID: id, At: start, Gone: true}}, deleted, "nothing but the id is known")
		jobs, err := b.Jobs(owner)
		require.NoError(t, err)
		require.Len(t, jobs, 1)
		assert.Equal(t, other, jobs[0].ID)
	}
	check()
	bea, err := b.Session(token)
	require.NoError(t, err)
	_, err = b.Sync(b.ctx, bea, id, sync.Request{V: sync.WireVersion, Device: "phone", Now: b.now})
	assert.ErrorIs(t, err, store.ErrJobGone, "the helper's phone hears why")

	require.NoError(t, b.Close())
	_, err = store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	b.Store, err = store.Open(b.dir, b.options())
	require.NoError(t, err)
	check()
}
