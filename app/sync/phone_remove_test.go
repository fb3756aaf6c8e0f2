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

// removable returns a phone with two logs. On "garden" it has a record, a note of a refusal, and an unsent tick.
func removable(t *testing.T) (*phone.Phone, map[string]string, func(phone.Step, error)) {
	ids := 0
	options := phone.Options{Now: func() int64 { return 1_800_000_000_000 },
		NewID:  func() string { ids++; return fmt.Sprintf("id%08d", ids) },
		Jitter: func() float64 { return 0 }, App: "test", SnapshotEvery: 1}
	rows := map[string]string{}
	apply := func(s phone.Step, err error) {
		require.NoError(t, err)
		for _, r := range s.Drop {
			for key := range rows {
				if r.Has(key) {
					delete(rows, key)
				}
			}
		}
		for _, key := range s.Delete {
			delete(rows, key)
		}
		for _, row := range s.Put {
			rows[row.Key] = string(row.Value)
		}
	}
	mine, step, err := phone.Open(nil, options)
	apply(step, err)
	helper := job.Author{Role: job.Helper, Name: "Ines", Link: "l"}
	apply(mine.SetAuthor(helper))
	for _, log := range []string{"garden", "garden2"} {
		apply(mine.Track(log))
		_, err = mine.Give(log, nil)
		require.NoError(t, err)
	}
	write := func(log string, c job.Change) {
		_, step, err := mine.Write(log, c)
		apply(step, err)
	}
	write("garden2", job.Put("card/frame/door", "done", true))
	write("garden", job.Put("card/frame/door", "done", true))
	write("garden", job.Put("brief", "title", "A helper may not"))
	req, due := mine.Request("garden", options.Now())
	require.True(t, due)
	resp, err := server.Serve(memory.New("garden", "first", []byte("key"), 1_700_000_000_000),
		server.Session{ID: "s", Author: helper}, req, options.Now())
	require.NoError(t, err)
	apply(mine.Receive("garden", req, resp, options.Now()))
	write("garden", job.Put("card/frame/door", "done", false))
	for _, kind := range []string{"log/", "out/", "note/", "rec/", "snap/"} {
		require.NotEmpty(t, strings.Join(kept(rows, kind, "garden"), " "), kind)
	}
	return mine, rows, apply
}

// kept lists the keys of a kind that belong to a log.
func kept(rows map[string]string, kind, log string) (keys []string) {
	for key := range rows {
		if rest, is := strings.CutPrefix(key, kind); is && (rest == log || strings.HasPrefix(rest, log+"/")) {
			keys = append(keys, key)
		}
	}
	return keys
}

// Removing a log deletes all its rows and no others. Unsent operations need a confirmation.
func TestRemoveLeavesNoRow(t *testing.T) {
	mine, rows, apply := removable(t)
	others := len(kept(rows, "out/", "garden2")) + len(kept(rows, "log/", "garden2"))
	unsent, heals := mine.WouldLose("garden")
	assert.Equal(t, 1, unsent)
	assert.False(t, heals)
	before := len(rows)
	_, err := mine.Remove("garden", false)
	require.ErrorIs(t, err, phone.ErrUnsent)
	assert.Len(t, rows, before)
	apply(mine.Remove("garden", true))
	for key := range rows {
		assert.NotContains(t, key+"/", "/garden/")
	}
	assert.Empty(t, mine.Notes())
	assert.Equal(t, []string{"garden2"}, mine.Logs())
	assert.Equal(t, others, len(kept(rows, "out/", "garden2"))+len(kept(rows, "log/", "garden2")))
	_, err = mine.Remove("garden", true)
	assert.ErrorIs(t, err, phone.ErrUntracked)
	unsent, _ = mine.WouldLose("garden")
	assert.Zero(t, unsent)
}
