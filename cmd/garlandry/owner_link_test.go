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

// A start prints an owner link only while the owner has no device: a service's output goes into the system's log, and a
// link opens everything for a week.
func TestAStartPrintsNoOwnerLinkOnceThereIsADevice(t *testing.T) {
	file, dir := binary(t, ""), t.TempDir()
	first := startProcess(t, file, dir, "")
	assert.Regexp(t, ownerLink, first.printed, "nobody is let in yet")
	visitor(t, first.link, "My phone")
	first.stop()
	require.Zero(t, invitesIn(t, dir), "it is spent")

	second := startProcess(t, file, dir, first.host())
	assert.NotRegexp(t, ownerLink, second.printed)
	assert.Contains(t, second.printed, "garlandry invite --data "+dir)
	assert.Equal(t, 1, invitesIn(t, dir), "only the one that this test asked for")
	visitor(t, second.link, "My other phone")
	second.stop()

	demo := startProcess(t, file, dir, first.host(), "--demo")
	assert.Regexp(t, ownerLink, demo.printed, "a demo is there to be looked into")
	demo.stop()

	code, out, complaint := cli("invite", "--data", dir, "--list")
	require.Zero(t, code, complaint)
	for _, id := range deviceIDs(t, out) {
		code, _, complaint := cli("invite", "--data", dir, "--end", id)
		require.Zero(t, code, complaint)
	}
	last := startProcess(t, file, dir, first.host())
	assert.Regexp(t, ownerLink, last.printed, "all devices are ended: somebody has to get in again")
	last.stop()
	code, out, complaint = cli("invite", "--data", dir, "--list")
	require.Zero(t, code, complaint)
	assert.Contains(t, out, "Closed for good, whatever backup is restored:")
	assert.Regexp(t, `your device\s+My phone`, out)
}

// On a terminal every start prints a link.
func TestAStartOnATerminalPrintsAnOwnerLink(t *testing.T) {
	terminal, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("this system lends no terminal (%v); run it where /dev/ptmx is there", err)
	}
	defer terminal.Close()
	for name, row := range map[string]struct {
		out  *os.File
		want bool
	}{"terminal": {terminal, true}, "file": {must(os.Create(filepath.Join(t.TempDir(), "log"))), false}} {
		assert.Equal(t, row.want, isTerminal(safely(row.out)), name)
	}
}

// deviceIDs reads the ids out of a list of devices.
func deviceIDs(t *testing.T, list string) (ids []string) {
	t.Helper()
	for _, found := range regexp.MustCompile(`(?m)^([a-z2-7]{26}) `).FindAllStringSubmatch(list, -1) {
		ids = append(ids, found[1])
	}
	require.NotEmpty(t, ids, list)
	return ids
}
