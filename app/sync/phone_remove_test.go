package sync_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync/phone"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// removable returns a phone with a second log and a function that saves a step. On the first log it has a record, a
// note of a refusal, and an unsent tick.
func removable(t *testing.T) (*device, func(phone.Step, error)) {
	d := newDevice(t, newServer())
	d.as.Author.Role = job.Helper
	d.sizes.SnapshotEvery = 1
	d.open(t)
	apply := func(step phone.Step, err error) {
		require.NoError(t, err)
		d.save(t, step)
	}
	apply(d.Track(otherLog))
	_, err := d.Give(otherLog, nil)
	require.NoError(t, err)
	_, step, err := d.Write(otherLog, job.Put(door, "done", true))
	apply(step, err)
	d.act(t, job.Put(door, "done", true))
	d.act(t, job.Put("brief", "title", "A helper may not"))
	d.exchange(t)
	d.act(t, job.Put(door, "done", false))
	for _, kind := range []string{"log/", "out/", "note/", "rec/", "snap/"} {
		require.NotEmpty(t, d.keysOf(kind, log), kind)
	}
	return d, apply
}

// otherLog begins with the id of the first log.
const otherLog = log + "2"

// keysOf lists the keys of a kind that belong to a log.
func (d *device) keysOf(kind, log string) (keys []string) {
	for _, key := range d.keys(kind) {
		if rest := strings.TrimPrefix(key, kind); rest == log || strings.HasPrefix(rest, log+"/") {
			keys = append(keys, key)
		}
	}
	return keys
}

// Removing a log deletes all its rows and no others. Unsent operations need a confirmation.
func TestRemoveLeavesNoRow(t *testing.T) {
	d, apply := removable(t)
	others := append(d.keysOf("out/", otherLog), d.keysOf("log/", otherLog)...)
	unsent, heals := d.WouldLose(log)
	assert.Equal(t, 1, unsent)
	assert.False(t, heals)
	before := len(d.disk)
	_, err := d.Remove(log, false)
	require.ErrorIs(t, err, phone.ErrUnsent)
	assert.Len(t, d.disk, before)

	apply(d.Remove(log, true))
	for key := range d.disk {
		assert.NotContains(t, key+"/", "/"+log+"/")
	}
	assert.Empty(t, d.Notes())
	assert.Equal(t, []string{otherLog}, d.Logs())
	assert.Equal(t, others, append(d.keysOf("out/", otherLog), d.keysOf("log/", otherLog)...))
	_, err = d.Remove(log, true)
	assert.ErrorIs(t, err, phone.ErrUntracked)
	unsent, _ = d.WouldLose(log)
	assert.Zero(t, unsent)
}
