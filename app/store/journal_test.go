package store_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// /dev/null accepts writes and fails to flush. A write fails if its journal line is not flushed.
func TestWriteFailsIfTheJournalIsNotFlushed(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("only Linux has a file that takes writes and refuses to flush; run it there")
	}
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	require.NoError(t, b.Close())
	journals, err := filepath.Glob(filepath.Join(b.dir, "ops-*.ndjson"))
	require.NoError(t, err)
	require.Len(t, journals, 1)
	require.NoError(t, os.Rename(journals[0], journals[0]+".aside"))
	require.NoError(t, os.Symlink(os.DevNull, journals[0]))
	b.reopen(t)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Count("card/make/door", 1)})
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.ErrorContains(t, err, "nothing was changed")
	shared, _, err := b.State(id)
	require.NoError(t, err)
	assert.Zero(t, shared.Tally("card/make/door").Total())
	require.NoError(t, b.Close())
	require.NoError(t, os.Rename(journals[0]+".aside", journals[0]))
	b.reopen(t)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Count("card/make/door", 1)})
	assert.NoError(t, err)
}

// A revocation fails if its line is not flushed.
func TestARevocationThatIsNotFlushedFails(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("only Linux has a file that takes writes and refuses to flush; run it there")
	}
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, _ := b.helper(t, owner, id, "Bea", job.Helper)
	file := filepath.Join(b.dir, store.ClosedName)
	require.NoError(t, os.Rename(file, file+".aside"))
	require.NoError(t, os.Symlink(os.DevNull, file))
	err := b.RevokeLink(b.ctx, owner, link.ID)
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.ErrorContains(t, err, "was not closed")
	session, err := b.Session(token)
	require.NoError(t, err)
	assert.Empty(t, session.Closed)
	require.NoError(t, os.Rename(file+".aside", file))
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	session, err = b.Session(token)
	require.NoError(t, err)
	assert.NotEmpty(t, session.Closed)
}
