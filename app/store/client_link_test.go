package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A client's link opens until it ends, is revoked, or its job is deleted. To a stranger they all look the same.
func TestClientLinkOpensUntilItIsOver(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Lead)
	_, err := b.OpenClientLink("abcdefghijklmnopqrstuvwxyz")
	assert.Equal(t, store.ErrUnknownLink, err, "no link was ever made")
	shows := store.ClientShows{Title: true, Measures: true}

	_, _, err = b.CreateClientLink(b.ctx, bea, id, shows, b.now+day)
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, _, err = b.CreateClientLink(b.ctx, owner, "nothere", shows, b.now+day)
	assert.ErrorIs(t, err, store.ErrNotFound)
	for _, ends := range []int64{b.now, b.now + 801*day} {
		var field *job.FieldError
		_, _, err = b.CreateClientLink(b.ctx, owner, id, shows, ends)
		require.True(t, errors.As(err, &field), "%v", err)
		assert.Equal(t, "ends", field.Path)
	}
	link, token, err := b.CreateClientLink(b.ctx, owner, id, shows, b.now+10*day)
	require.NoError(t, err)
	open, err := b.OpenClientLink(token)
	require.NoError(t, err)
	assert.Equal(t, link, open)
	assert.Equal(t, store.ClientLink{ID: link.ID, Job: id, Shows: shows, Created: start, Ends: start + 10*day}, open)
	_, _, err = b.RedeemLink(b.ctx, token, "x")
	assert.ErrorIs(t, err, store.ErrUnknownLink, "it lets nobody in")
	data, err := os.ReadFile(filepath.Join(b.dir, store.DatabaseName))
	require.NoError(t, err)
	assert.NotContains(t, string(data), token)
	assert.Contains(t, string(data), store.HashOf(token))

	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	_, err = b.OpenClientLink(token)
	assert.Equal(t, store.ErrUnknownLink, err)
	require.NoError(t, b.RestoreJob(b.ctx, owner, id))
	_, err = b.OpenClientLink(token)
	assert.NoError(t, err)
	b.now += 10*day - 1
	_, err = b.OpenClientLink(token)
	assert.NoError(t, err)
	b.now++
	_, err = b.OpenClientLink(token)
	assert.Equal(t, store.ErrUnknownLink, err)
}

// A revoked link stays revoked in every database that is brought back.
func TestRevokedClientLinkStaysRevoked(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	other := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Lead)
	link, token, err := b.CreateClientLink(b.ctx, owner, id, store.ClientShows{}, b.now+10*day)
	require.NoError(t, err)
	backup := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, b.Backup(b.ctx, backup))

	assert.ErrorIs(t, b.RevokeClientLink(b.ctx, bea, id, link.ID), store.ErrForbidden)
	assert.ErrorIs(t, b.RevokeClientLink(b.ctx, owner, other, link.ID), store.ErrNotFound, "another job's")
	_, err = b.OpenClientLink(token)
	require.NoError(t, err)
	b.now += hour
	require.NoError(t, b.RevokeClientLink(b.ctx, owner, id, link.ID))
	b.now += hour
	require.NoError(t, b.RevokeClientLink(b.ctx, owner, id, link.ID), "twice is once")
	check := func() {
		_, err = b.OpenClientLink(token)
		assert.Equal(t, store.ErrUnknownLink, err)
		listed, err := b.ClientLinks(id)
		require.NoError(t, err)
		link.Revoked = start + hour
		assert.Equal(t, []store.ClientLink{link}, listed)
	}
	check()
	require.NoError(t, b.Close())
	_, err = store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	check()
}

// A job has a limit of open links, and takes its links with it when it is removed for good.
func TestClientLinksAreBounded(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	var last store.ClientLink
	for range 20 {
		var err error
		last, _, err = b.CreateClientLink(b.ctx, owner, id, store.ClientShows{}, b.now+10*day)
		require.NoError(t, err)
	}
	_, _, err := b.CreateClientLink(b.ctx, owner, id, store.ClientShows{}, b.now+10*day)
	var field *job.FieldError
	require.True(t, errors.As(err, &field), "%v", err)
	require.NoError(t, b.RevokeClientLink(b.ctx, owner, id, last.ID))
	_, _, err = b.CreateClientLink(b.ctx, owner, id, store.ClientShows{}, b.now+10*day)
	require.NoError(t, err)

	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	b.now += 30 * day
	removed, err := b.RemoveDeleted()
	require.NoError(t, err)
	require.Equal(t, []string{id}, removed)
	left, err := b.ClientLinks(id)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// A backup on another machine has no closed.ndjson beside it. One made after a link was revoked closes the link there,
// also in an older backup that is restored later.
func TestRevokedClientLinkStaysRevokedElsewhere(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, err := b.CreateClientLink(b.ctx, owner, id, store.ClientShows{}, b.now+10*day)
	require.NoError(t, err)
	dir := t.TempDir()
	before, after := filepath.Join(dir, "before.db"), filepath.Join(dir, "after.db")
	require.NoError(t, b.Backup(b.ctx, before))
	require.NoError(t, b.RevokeClientLink(b.ctx, owner, id, link.ID))
	require.NoError(t, b.Backup(b.ctx, after))
	for _, row := range []struct {
		backup string
		links  int
	}{{after, 0}, {before, 1}} {
		restored, err := store.Restore(b.ctx, row.backup, filepath.Join(dir, "elsewhere"), b.options())
		require.NoError(t, err)
		assert.Equal(t, row.links, restored.Links, "closed again")
		there, err := store.Open(filepath.Join(dir, "elsewhere"), b.options())
		require.NoError(t, err)
		_, err = there.OpenClientLink(token)
		assert.Equal(t, store.ErrUnknownLink, err, row.backup)
		require.NoError(t, there.Close())
	}
}
