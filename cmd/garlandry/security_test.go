package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTheCommandLineWritesTheSecurityLog checks that commands on a data directory are recorded in its security log, and
// that restoring an earlier backup keeps these records.
func TestTheCommandLineWritesTheSecurityLog(t *testing.T) {
	dir, backup := t.TempDir(), filepath.Join(t.TempDir(), "copy.db")
	data, err := store.Open(dir, store.Options{})
	require.NoError(t, err)
	require.NoError(t, data.Backup(context.Background(), backup))
	require.NoError(t, data.Close())
	var out, wrong strings.Builder
	s := stdio{out: &out, err: &wrong}
	require.NoError(t, (&inviteCommand{dataFlag: dataFlag{dir}, Address: "http://127.0.0.1:1"}).Run(s))
	require.NoError(t, (&restoreCommand{dataFlag: dataFlag{dir}, File: backup}).Run(s))
	log, err := os.ReadFile(filepath.Join(dir, "security.ndjson"))
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(log)), "\n")
	require.Len(t, lines, 2)
	assert.Contains(t, lines[0], `"what":"invite_made"`)
	assert.Contains(t, lines[1], `"what":"restored"`)
	_, token, found := strings.Cut(out.String(), "#")
	require.True(t, found)
	token, _, _ = strings.Cut(token, "\n")
	assert.NotContains(t, string(log), strings.TrimSpace(token))
	assert.Empty(t, wrong.String())
}
