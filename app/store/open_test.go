package store_test

import (
	"context"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"os"
	"os/exec"
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
	for name, dir := range map[string]string{"a file": file, "below a file": filepath.Join(file, "dir"),
		"where nothing can be made": "/proc/garlandry"} {
		_, err := store.Open(dir, store.Options{})
		require.ErrorIs(t, err, store.ErrDirectory, name)
		assert.Contains(t, err.Error(), filepath.Base(dir), name)
	}
}

func TestADirectoryForReadingOnly(t *testing.T) {
	dir := t.TempDir()
	if os.Geteuid() == 0 {
		if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_RDONLY, ""); err != nil {
			t.Skipf(
				"root may write anywhere, and a read-only file system cannot be mounted here (%v); run this test as another user",
				err,
			)
		}
		defer func() { require.NoError(t, syscall.Unmount(dir, 0)) }()
	} else {
		require.NoError(t, os.Chmod(dir, 0o500))
	}
	_, err := store.Open(dir, store.Options{})
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.Contains(t, err.Error(), dir)
}

// A limit on the size of files simulates a full disk: writes beyond it fail with the same kind of error. The limit is
// for a whole process, so a child runs the test.
func TestAFullDisk(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	require.NoError(t, b.Close())
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), fullDir+"="+b.dir)
	out, err := child.CombinedOutput()
	require.NoError(t, err, string(out))
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	last := lines[len(lines)-1]
	assert.Contains(t, last, store.ErrDirectory.Error())
	assert.Contains(t, last, b.dir)
	assert.Contains(t, last, "nothing was changed")
	require.Greater(t, len(lines), 2, "some were stored before")
	b.reopen(t)
	assert.Equal(t, lines[len(lines)-2]+strings.Repeat("x", 3000), b.read(t, id).Brief.Notes,
		"the last stored value stays")
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "notes", "there is room again")})
	require.NoError(t, err)
	assert.Equal(t, "there is room again", b.read(t, id).Brief.Notes)
}

const fullDir = "GARLANDRY_FULL_TEST_DIR" // set in the child: the data directory

// writeUntilFull writes until the disk is full. It prints what was stored, then the store's error.
func writeUntilFull(dir string) error {
	s, err := store.Open(dir, store.Options{})
	if err != nil {
		return err
	}
	jobs, err := s.Jobs(s.System("Owner"))
	if err != nil {
		return err
	}
	info, err := os.Stat(filepath.Join(dir, store.DatabaseName))
	if err != nil {
		return err
	}
	limit := syscall.Rlimit{Cur: uint64(info.Size()) * 4, Max: uint64(info.Size()) * 4}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	for n := 0; ; n++ {
		notes := fmt.Sprint(n)
		_, full := s.Write(context.Background(), s.System("Owner"), jobs[0].ID,
			[]job.Change{job.Put("brief", "notes", notes+strings.Repeat("x", 3000))})
		if full == nil {
			fmt.Println(notes)
			continue
		}
		if _, _, err := s.State(jobs[0].ID); err != nil {
			return fmt.Errorf("read from a full disk: %w", err)
		}
		fmt.Println(strings.ReplaceAll(full.Error(), "\n", " "))
		return s.Close()
	}
}

// loseFreeList makes both meta pages of a database name a free list far beyond the file's end: reading it faults.
func loseFreeList(d []byte) []byte {
	// In each page the list's place is at 48, and the checksum of bytes 16 to 71 at 72.
	for _, at := range []int{0, 4096} {
		copy(d[at+48:at+56], "\x00\x00\x00\x40\x00\x00\x00\x00")
		sum := fnv.New64a()
		sum.Write(d[at+16 : at+72])
		binary.LittleEndian.PutUint64(d[at+72:at+80], sum.Sum64())
	}
	return d
}

func TestDamagedDatabaseIsReportedAndKept(t *testing.T) {
	for name, damage := range map[string]func([]byte) []byte{
		"text": func([]byte) []byte { return []byte(strings.Repeat("not a database ", 999)) },
		"cut":  func(d []byte) []byte { return d[:len(d)/3] },
		"pages out of range": func(d []byte) []byte {
			for at := 2 * 4096; at < len(d); at += 4096 {
				copy(d[at+8:at+16], "\x10\x00\xff\xff\xff\xff\xff\x7f") // a free list longer than any memory
			}
			return d
		},
		"a free list out of range": loseFreeList,
		"no head":                  func(d []byte) []byte { copy(d, make([]byte, 8192)); return d },
		"wild pages": func(d []byte) []byte {
			copy(d[8192:], strings.Repeat("\xff", len(d)-8192))
			return d
		},
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
			damaged := damage(data)
			require.NoError(t, os.WriteFile(path, damaged, 0o600))
			_, err = store.Open(dir, store.Options{})
			require.ErrorIs(t, err, store.ErrDamaged)
			assert.Contains(t, err.Error(), path)
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, damaged, after, "the file is left as it is")
		})
	}
}

func TestUnfinishedDatabaseIsIgnored(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "."+store.DatabaseName+"-123"), []byte("half"), 0o600))
	s, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	require.NoError(t, s.Close(), "closing twice is harmless")
}

func TestAKeyThatIsTooShort(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, store.KeyName), []byte("short"), 0o600))
	_, err := store.Open(dir, store.Options{})
	require.ErrorIs(t, err, store.ErrDirectory)
	assert.Contains(t, err.Error(), store.KeyName)
}
