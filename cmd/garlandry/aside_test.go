package main

import (
	"encoding/json"
	"net/http"
	"testing"
	"time"

	"garlandry/app/job"
	wire "garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCLIAside lists a harmful operation, sets it aside and puts it back by command, whether or not a server runs.
func TestCLIAside(t *testing.T) {
	dir := t.TempDir()
	server := startServer(t, dir, "", false)
	owner := visitor(t, server.link, "Dora")
	bring(t, owner, server.address, "supper", "Quayside supper")
	wave := job.Op{ID: newID(), Device: "laterphone", Number: 1, Version: 9, Kind: "wave\u202e",
		Entity: "card/look", Value: json.RawMessage(`"x"`), Wall: time.Now().UnixMilli()}
	answer, status, err := exchange(owner, server.address, "supper",
		wire.Request{Device: wave.Device, Now: wave.Wall, Ops: []job.Op{wave}})
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, status)
	require.Equal(t, wire.OK, answer.Acks[0].Result, answer.Acks[0].Why)
	aside := func(more ...string) string {
		code, out, complaint := cli(append([]string{"aside", "--data", dir, "--job", "supper"}, more...)...)
		require.Equal(t, 0, code, complaint)
		return out
	}
	kind := func() job.Kind {
		for _, r := range records(t, owner, server.address, "supper") {
			if r.ID == wave.ID {
				return r.Kind
			}
		}
		return ""
	}
	list := aside()
	assert.Contains(t, list, wave.ID)
	assert.Contains(t, list, "wave")
	assert.NotContains(t, list, "\u202e", "text from others must not control the terminal")
	assert.NotContains(t, list, "set aside")
	assert.Contains(t, aside("--op", wave.ID, "--why", "spoils the day"), "Set aside.")
	assert.Equal(t, job.Emptied, kind(), "the running server applies it at once")
	assert.Contains(t, aside(), `set aside `)
	assert.Contains(t, aside(), `spoils the day`)
	assert.Contains(t, aside("--op", wave.ID, "--undo"), "Put back.")
	assert.Equal(t, wave.Kind, kind())
	for name, more := range map[string][]string{
		"an unknown operation": {"--job", "supper", "--op", "nosuch"}, "an unknown job": {"--job", "nosuch"}} {
		code, _, complaint := cli(append([]string{"aside", "--data", dir}, more...)...)
		assert.Equal(t, 1, code, name)
		assert.Contains(t, complaint, "nosuch", name)
	}
	code, _, complaint := cli("aside", "--data", dir, "--job", "supper", "--undo")
	assert.Equal(t, 2, code, complaint)
	server.stop()
	assert.Contains(t, aside("--op", wave.ID), "Set aside.", "also without a server")
	assert.Contains(t, aside(), "command line")
}
