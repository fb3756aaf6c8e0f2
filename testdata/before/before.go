// Package before hands tests the data that an earlier build has written; see README.md.
package before

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"embed"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

//go:embed *.gz *.json jobs exports
var files embed.FS

// Now is a minute after the data was written, in Unix milliseconds.
const Now = int64(1_795_888_110_000)

// Said is what the server said of the data.
type Said struct {
	Demo, Typed string // ids of the two jobs on the server
	Lantern     string // id of the job that waits on the owner's phone
	Five        string // id of the operation that was set aside
	Ended       string // id of Bea's link
	Me          struct {
		Jobs []struct {
			ID   string
			E, H string // epoch and hash of the shared log
			S    uint64 // its length
			Held int
		}
	}
}

// Phone is what a phone has stored.
type Phone struct {
	Stores struct{ Text [][2]string } // the rows of its IndexedDB store
	Local  map[string]string          // of its localStorage, without remembered pages
	Cookie [2]string                  // name and value
}

// Log is the records of a job: the shared ones and the owner's own.
type Log struct {
	ID           string
	Records, Own []json.RawMessage
}

// File returns a file of this folder.
func File(t testing.TB, name string) []byte {
	t.Helper()
	data, err := files.ReadFile(name)
	require.NoError(t, err)
	if !strings.HasSuffix(name, ".gz") {
		return data
	}
	r, err := gzip.NewReader(bytes.NewReader(data))
	require.NoError(t, err)
	data, err = io.ReadAll(r)
	require.NoError(t, err)
	return data
}

// JobFiles lists the job files.
func JobFiles(t testing.TB) (names []string) {
	t.Helper()
	for _, folder := range []string{"exports", "jobs"} {
		entries, err := files.ReadDir(folder)
		require.NoError(t, err)
		for _, e := range entries {
			names = append(names, folder+"/"+e.Name())
		}
	}
	return names
}

// Read decodes a JSON file.
func Read[T any](t testing.TB, name string) (value T) {
	t.Helper()
	require.NoError(t, json.Unmarshal(File(t, name), &value))
	return value
}

// Data unpacks the data directory and the backup for one test.
func Data(t testing.TB) (dir, backup string) {
	t.Helper()
	to := t.TempDir()
	for r := tar.NewReader(bytes.NewReader(File(t, "data.tar.gz"))); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return filepath.Join(to, "data"), filepath.Join(to, "backup.db")
		}
		require.NoError(t, err)
		path := filepath.Join(to, filepath.FromSlash(h.Name))
		if h.FileInfo().IsDir() {
			require.NoError(t, os.MkdirAll(path, 0o700))
			continue
		}
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, data, 0o600))
	}
}
