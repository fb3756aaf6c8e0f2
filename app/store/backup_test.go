package store_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func pull(t *testing.T, b *bench, session store.Session, log string, cursor sync.Cursor) sync.Response {
	t.Helper()
	resp, err := b.Sync(b.ctx, session, log,
		sync.Request{V: sync.WireVersion, Device: "phone", Now: b.now, Cursor: cursor})
	require.NoError(t, err)
	return resp
}

func TestBackupAndRestore(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	before := pull(t, b, owner, id, sync.Cursor{})
	copied := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, copied))
	assert.ErrorIs(t, b.Backup(b.ctx, copied), os.ErrExist, "a backup is never overwritten")
	assert.Equal(t, before.Head, pull(t, b, owner, id, sync.Cursor{}).Safe, "phones learn what is backed up")
	_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "After the backup")})
	require.NoError(t, err)
	after := pull(t, b, owner, id, sync.Cursor{})

	_, err = store.Restore(b.ctx, copied, b.dir, b.options())
	assert.ErrorIs(t, err, store.ErrInUse, "not while the server runs")
	require.NoError(t, b.Close())
	restored, err := store.Restore(b.ctx, copied, b.dir, b.options())
	require.NoError(t, err)
	assert.FileExists(t, restored.Kept, "the old database is kept")
	b.reopen(t)
	assert.Equal(t, "Reading room reopening", b.read(t, id).Brief.Title)
	again := pull(t, b, owner, id, sync.Cursor{})
	assert.NotEqual(t, before.Epoch, again.Epoch)
	assert.Equal(t, before.Hash, again.Hash)
	rewound := pull(t, b, owner, id, sync.Cursor{Epoch: after.Epoch, Seq: after.Seq, Hash: after.Hash})
	assert.True(t, rewound.Rewound)
}

func TestRestoreOnANewMachine(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	copied := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, copied))
	dir := filepath.Join(t.TempDir(), "new", "place")
	restored, err := store.Restore(b.ctx, copied, dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, store.Restored{Seals: store.SealsNoKey}, restored)
	s, err := store.Open(dir, b.options())
	require.NoError(t, err)
	defer s.Close()
	assert.True(t, s.NewKey(), "the backup has no key")
	shared, _, err := s.State(id)
	require.NoError(t, err)
	assert.NotEmpty(t, shared.Registers)
}

func TestInvalidBackupIsNotRestored(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	copied := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, copied))
	require.NoError(t, b.Close())
	data, err := os.ReadFile(copied)
	require.NoError(t, err)
	cut := filepath.Join(t.TempDir(), "cut.db")
	require.NoError(t, os.WriteFile(cut, data[:len(data)/2], 0o600))
	text := filepath.Join(t.TempDir(), "text.db")
	require.NoError(t, os.WriteFile(text, []byte(strings.Repeat("no database\n", 1000)), 0o600))
	lost := filepath.Join(t.TempDir(), "lost.db")
	require.NoError(t, os.WriteFile(lost, loseFreeList(bytes.Clone(data)), 0o600))
	damaged := filepath.Join(t.TempDir(), "damaged.db")
	for i := 4 * 4096; i < len(data); i += 4096 {
		copy(data[i:i+16], strings.Repeat("\xff", 16))
	}
	require.NoError(t, os.WriteFile(damaged, data, 0o600))
	for _, file := range []string{cut, text, lost, damaged, "/nowhere/at.all", b.dir} {
		_, err := store.Restore(b.ctx, file, b.dir, b.options())
		assert.Error(t, err, file)
	}
	b.reopen(t)
	assert.Equal(t, "Reading room reopening", b.read(t, id).Brief.Title, "nothing was changed")
}

func TestJournalHoldsEveryOperation(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	journal := filepath.Join(b.dir, "ops-202701.ndjson")
	file, err := os.OpenFile(journal, os.O_WRONLY|os.O_APPEND, 0)
	require.NoError(t, err, "named by the month of the server's clock")
	_, err = file.WriteString(`{"log":"cut off by a power fail`)
	require.NoError(t, err)
	require.NoError(t, file.Close())
	require.NoError(t, b.Close())
	b.reopen(t)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "After the power failure")})
	require.NoError(t, err)

	fromJournal, bad := []job.Rec{}, 0
	text, err := os.Open(journal)
	require.NoError(t, err)
	defer text.Close()
	for lines := bufio.NewScanner(text); lines.Scan(); {
		var line struct {
			Log string  `json:"log"`
			Rec job.Rec `json:"rec"`
		}
		if json.Unmarshal(lines.Bytes(), &line) != nil {
			bad++
		} else if line.Log == id {
			fromJournal = append(fromJournal, line.Rec)
		}
	}
	assert.Equal(t, 1, bad, "the truncated line has a line of its own")
	shared, _, err := b.State(id)
	require.NoError(t, err)
	assert.Equal(t, shared, job.Fold(fromJournal...), "the journal alone gives the job")
}
