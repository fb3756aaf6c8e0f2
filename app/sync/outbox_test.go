package sync_test

import (
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An operation acknowledged and recorded in one answer leaves the stored outbox too, so that a restarted phone does not
// send it again.
func TestSharedOperationLeavesTheStorage(t *testing.T) {
	ids := 0
	options := phone.Options{Now: func() int64 { return 1_800_000_000_000 },
		NewID: func() string { ids++; return fmt.Sprintf("id%08d", ids) }, Jitter: func() float64 { return 0 },
		App: "test"}
	rows := map[string][]byte{}
	apply := func(s phone.Step) {
		for _, key := range s.Delete {
			delete(rows, key)
		}
		for _, row := range s.Put {
			rows[row.Key] = row.Value
		}
	}
	phone, step, err := phone.Open(nil, options)
	require.NoError(t, err)
	apply(step)
	step, err = phone.Track("garden")
	require.NoError(t, err)
	apply(step)
	_, err = phone.Give("garden", nil)
	require.NoError(t, err)
	_, step, err = phone.Write("garden", job.Put("card/frame/door", "done", true))
	require.NoError(t, err)
	apply(step)
	require.Equal(t, 1, outRows(rows))

	req, due := phone.Request("garden", options.Now())
	require.True(t, due)
	ledger := memory.New("garden", "first", []byte("key"), 1_700_000_000_000)
	resp, err := server.Serve(ledger, server.Session{ID: "s", Author: job.Author{Role: job.Owner}}, req, options.Now())
	require.NoError(t, err)
	step, err = phone.Receive("garden", req, resp, options.Now())
	require.NoError(t, err)
	apply(step)
	assert.Zero(t, outRows(rows))
	assert.Zero(t, phone.Status("garden").Waiting)
}

func outRows(rows map[string][]byte) int {
	n := 0
	for key := range rows {
		if strings.HasPrefix(key, "out/") {
			n++
		}
	}
	return n
}
