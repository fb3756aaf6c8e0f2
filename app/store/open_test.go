package store_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOneProcessOnly(t *testing.T) {
	b := openStore(t)
	_, err := store.Open(b.dir, store.Options{})
	require.ErrorIs(t, err, store.ErrInUse)
	assert.Contains(t, err.Error(), b.dir)
}

func TestADirectoryThatCannotBeUsed(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for name, dir := range map[string]string{"a file": file, "below a file": filepath.Join(file, "dir"), "where nothing can be made": "/proc/garlandry"} {
		_, err := store.Open(dir, store.Options{})
		require.ErrorIs(t, err, store.ErrDirectory, name)
		assert.Contains(t, err.Error(), filepath.Base(dir), name)
	}
}

func TestADirectoryForReadingOnly(t *testing.T) {
	dir := t.TempDir()
	if os.Geteuid() == 0 {
		if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_RDONLY, ""); err != nil {
			t.Skipf("root may write anywhere, and a read-only file system cannot be mounted here (%v); run this test as another user", err)
		}
		defer func() { require.NoError(t, syscall.Unmount(dir, 0)) }()
	} else {
		require.NoError(t, os.Chmod(dir, 0o500))
	}
	_, err := store.Open(dir, store.Options{})
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.Contains(t, err.Error(), dir)
}

// A limit on the size of files stands in for a full disk: writes beyond it fail with the same kind of error.
func TestAFullDisk(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	info, err := os.Stat(filepath.Join(b.dir, store.DatabaseName))
	require.NoError(t, err)
	var unlimited syscall.Rlimit
	require.NoError(t, syscall.Getrlimit(syscall.RLIMIT_FSIZE, &unlimited))
	limited := unlimited
	limited.Cur = uint64(info.Size()) * 4
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limited))
	var full error
	written := 0
	for n := 0; n < 2000 && full == nil; n++ {
		if _, full = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "notes", strings.Repeat(fmt.Sprint(n, " "), 2000)[:3900])}); full == nil {
			written = n
		}
	}
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &unlimited))
	require.Error(t, full)
	require.Positive(t, written)
	assert.ErrorIs(t, full, store.ErrDirectory)
	assert.Contains(t, full.Error(), b.dir)
	assert.True(t, strings.HasPrefix(b.read(t, id).Brief.Notes, fmt.Sprint(written, " ")), "what was written stays")
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "notes", "there is room again")})
	require.NoError(t, err)
	require.NoError(t, b.Close())
	b.reopen(t)
	assert.Equal(t, "there is room again", b.read(t, id).Brief.Notes)
}

func TestADamagedDatabaseIsToldAndKept(t *testing.T) {
	for name, spoil := range map[string]func([]byte) []byte{
		"text":       func([]byte) []byte { return []byte(strings.Repeat("not a database ", 999)) },
		"cut":        func(d []byte) []byte { return d[:len(d)/3] },
		"no head":    func(d []byte) []byte { copy(d, make([]byte, 8192)); return d },
		"wild pages": func(d []byte) []byte { copy(d[8192:], strings.Repeat("\xff", len(d)-8192)); return d },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s, err := store.Open(dir, store.Options{})
			require.NoError(t, err)
			_, err = s.CreateJob(t.Context(), s.System("x"), "", []job.Change{job.Put("brief", "title", "x")})
			require.NoError(t, err)
			require.NoError(t, s.Close())
			path := filepath.Join(dir, store.DatabaseName)
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			spoilt := spoil(data)
			require.NoError(t, os.WriteFile(path, spoilt, 0o600))
			_, err = store.Open(dir, store.Options{})
			require.ErrorIs(t, err, store.ErrDamaged)
			assert.Contains(t, err.Error(), path)
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, spoilt, after, "the file is left as it is")
		})
	}
}

func TestAHalfMadeDatabaseIsNoDatabase(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "."+store.DatabaseName+"-123"), []byte("half"), 0o600))
	s, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	require.NoError(t, s.Close(), "closing twice is nothing")
}

func TestAKeyThatIsTooShort(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, store.KeyName), []byte("short"), 0o600))
	_, err := store.Open(dir, store.Options{})
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.Contains(t, err.Error(), store.KeyName)
}
