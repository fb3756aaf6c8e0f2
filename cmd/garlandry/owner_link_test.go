package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func invitesIn(t *testing.T, dir string) int {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, "invites", "*"))
	require.NoError(t, err)
	return len(found)
}

// TestStartPrintsNoOwnerLinkOnceThereIsADevice checks that a start prints an owner link only while the owner has no
// device. A service's output goes into the system log, and a link opens everything for a week.
func TestStartPrintsNoOwnerLinkOnceThereIsADevice(t *testing.T) {
	file, dir := binary(t, ""), t.TempDir()
	first := startProcess(t, file, dir, "")
	assert.Regexp(t, ownerLink, first.printed, "the owner has no device yet")
	visitor(t, first.link, "My phone")
	first.stop()
	require.Zero(t, invitesIn(t, dir), "the link is used up")

	second := startProcess(t, file, dir, first.host())
	assert.NotRegexp(t, ownerLink, second.printed)
	assert.Contains(t, second.printed, "garlandry invite --data "+dir)
	assert.Equal(t, 1, invitesIn(t, dir), "only the one that this test asked for")
	visitor(t, second.link, "My other phone")
	second.stop()

	demo := startProcess(t, file, dir, first.host(), "--demo")
	assert.Regexp(t, ownerLink, demo.printed, "a demo always prints a link")
	demo.stop()

	code, out, complaint := cli("invite", "--data", dir, "--list")
	require.Zero(t, code, complaint)
	for _, id := range deviceIDs(t, out) {
		code, _, complaint := cli("invite", "--data", dir, "--end", id)
		require.Zero(t, code, complaint)
	}
	last := startProcess(t, file, dir, first.host())
	assert.Regexp(t, ownerLink, last.printed, "all devices are ended, so the owner needs a link")
	last.stop()
	code, out, complaint = cli("invite", "--data", dir, "--list")
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "Closed for good, whatever backup is restored:")
	assert.Regexp(t, `your device\s+My phone`, out)
}

// TestStartOnATerminalPrintsAnOwnerLink checks that every start on a terminal prints a link.
func TestStartOnATerminalPrintsAnOwnerLink(t *testing.T) {
	terminal, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no terminal available (%v); run it where /dev/ptmx exists", err)
	}
	defer terminal.Close()
	for name, row := range map[string]struct {
		out  *os.File
		want bool
	}{"terminal": {terminal, true}, "file": {must(os.Create(filepath.Join(t.TempDir(), "log"))), false}} {
		assert.Equal(t, row.want, isTerminal(safely(row.out)), name)
	}
}

// deviceIDs extracts the ids from a list of devices.
func deviceIDs(t *testing.T, list string) (ids []string) {
	t.Helper()
	for _, found := range regexp.MustCompile(`(?m)^([a-z2-7]{26}) `).FindAllStringSubmatch(list, -1) {
		ids = append(ids, found[1])
	}
	require.NotEmpty(t, ids, list)
	return ids
}
