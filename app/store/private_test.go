package store_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func modeOf(t *testing.T, path string) fs.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	return info.Mode().Perm()
}

// Opening a data directory that others can read makes it and its files private, and reports it once.
func TestADirectoryOpenToOthersIsClosed(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	b.job(t, owner)
	require.NoError(t, b.Close())
	files, err := os.ReadDir(b.dir)
	require.NoError(t, err)
	require.NoError(t, os.Chmod(b.dir, 0o755))
	for _, f := range files {
		mode := fs.FileMode(0o644)
		if f.IsDir() {
			mode = 0o755
		}
		require.NoError(t, os.Chmod(filepath.Join(b.dir, f.Name()), mode))
	}
	b.reopen(t)
	require.Len(t, b.Repairs(), 1)
	assert.Contains(t, b.Repairs()[0], b.dir)
	assert.Equal(t, fs.FileMode(0o700), modeOf(t, b.dir))
	for _, f := range files {
		assert.Zero(t, modeOf(t, filepath.Join(b.dir, f.Name()))&0o077, f.Name())
	}
	require.NoError(t, b.Close())
	b.reopen(t)
	assert.Empty(t, b.Repairs())
}

// A directory that cannot be made private is refused and not changed.
func TestDirectoryThatCannotBePrivateIsRefused(t *testing.T) {
	shared := filepath.Join(t.TempDir(), "shared")
	require.NoError(t, os.Mkdir(shared, 0o700))
	require.NoError(t, os.Chmod(shared, 0o777|fs.ModeSticky))
	full := filepath.Join(t.TempDir(), "full")
	require.NoError(t, os.Mkdir(full, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(full, "letters.txt"), nil, 0o644))
	rows := map[string][2]string{"for everybody": {shared, "for all of them"}, "with other things": {full, "letters.txt"}}
	if os.Geteuid() == 0 {
		foreign := filepath.Join(t.TempDir(), "foreign")
		require.NoError(t, os.Mkdir(foreign, 0o755))
		require.NoError(t, syscall.Chown(foreign, 65534, 65534))
		rows["somebody else's"] = [2]string{foreign, "not yours"}
	} else {
		t.Log("only root can give a directory to somebody else; run as root to test that too")
	}
	for name, row := range rows {
		before := modeOf(t, row[0])
		_, err := store.Open(row[0], store.Options{})
		require.ErrorIs(t, err, store.ErrDirectory, name)
		assert.ErrorContains(t, err, row[0], name)
		assert.ErrorContains(t, err, row[1], name)
		assert.Equal(t, before, modeOf(t, row[0]), name)
		assert.NoFileExists(t, filepath.Join(row[0], store.DatabaseName), name)
	}
}
