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

// /dev/null takes every write and refuses to flush: what is not flushed was not written, and is not in the database.
func TestAJournalThatIsNotFlushedRefuses(t *testing.T) {
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
