package sync_test

import (
	"fmt"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// removable is a phone with two logs: on "garden" it has a record, a note of something refused, and a tick not handed
// in.
func removable(t *testing.T) (*sync.Phone, map[string]string, func(sync.Step, error)) {
	ids := 0
	options := sync.PhoneOptions{Now: func() int64 { return 1_800_000_000_000 },
		NewID:  func() string { ids++; return fmt.Sprintf("id%08d", ids) },
		Jitter: func() float64 { return 0 }, App: "test", SnapshotEvery: 1}
	rows := map[string]string{}
	apply := func(s sync.Step, err error) {
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
	phone, step, err := sync.OpenPhone(nil, options)
	apply(step, err)
	helper := job.Author{Role: job.Helper, Name: "Ines", Link: "l"}
	apply(phone.SetAuthor(helper))
	for _, log := range []string{"garden", "garden2"} {
		apply(phone.Track(log))
		_, err = phone.Give(log, nil)
		require.NoError(t, err)
	}
	write := func(log string, c job.Change) {
		_, step, err := phone.Write(log, c)
		apply(step, err)
	}
	write("garden2", job.Put("card/frame/door", "done", true))
	write("garden", job.Put("card/frame/door", "done", true))
	write("garden", job.Put("brief", "title", "A helper may not"))
	req, due := phone.Request("garden", options.Now())
	require.True(t, due)
	resp, err := sync.Serve(sync.NewMemory("garden", "first", []byte("key"), 1_700_000_000_000),
		sync.Session{ID: "s", Author: helper}, req, options.Now())
	require.NoError(t, err)
	apply(phone.Receive("garden", req, resp, options.Now()))
	write("garden", job.Put("card/frame/door", "done", false))
	for _, kind := range []string{"log/", "out/", "note/", "rec/", "snap/"} {
		require.NotEmpty(t, strings.Join(kept(rows, kind, "garden"), " "), kind)
	}
	return phone, rows, apply
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

// A log that is removed leaves no row of any kind, and the others as they were; what waits is not removed unasked.
func TestRemoveLeavesNoRow(t *testing.T) {
	phone, rows, apply := removable(t)
	others := len(kept(rows, "out/", "garden2")) + len(kept(rows, "log/", "garden2"))
	unsent, heals := phone.Left("garden")
	assert.Equal(t, 1, unsent)
	assert.False(t, heals)
	before := len(rows)
	_, err := phone.Remove("garden", false)
	require.ErrorIs(t, err, sync.ErrUnsent)
	assert.Len(t, rows, before)
	apply(phone.Remove("garden", true))
	for key := range rows {
		assert.NotContains(t, key+"/", "/garden/")
	}
	assert.Empty(t, phone.Notes())
	assert.Equal(t, []string{"garden2"}, phone.Logs())
	assert.Equal(t, others, len(kept(rows, "out/", "garden2"))+len(kept(rows, "log/", "garden2")))
	_, err = phone.Remove("garden", true)
	assert.ErrorIs(t, err, sync.ErrUntracked)
	unsent, _ = phone.Left("garden")
	assert.Zero(t, unsent)
}
