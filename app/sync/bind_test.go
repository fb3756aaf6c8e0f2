package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A server restored to its beginning has forgotten which link a device id belongs to. The records that heal it say so.
func TestHealedRecordBindsItsDevice(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Count(door, 3))
	d.exchange(t)
	recs, err := d.records.Read(1, 10)
	require.NoError(t, err)
	restored := newServer()
	serve := func(link string, role job.Role, heal []job.Rec, ops ...job.Op) sync.Result {
		who := server.Session{ID: "of " + link, Author: job.Author{Role: role, Name: link, Link: link}}
		acks := send(t, restored, who, start, heal, ops...)
		return acks[len(acks)-1].Result
	}
	forged := func(id string, number uint64) job.Op {
		return job.Op{ID: id, Device: d.Device(), Number: number, Version: 1, Kind: job.Add, Entity: door,
			Delta: 1, Wall: start}
	}
	require.Equal(t, sync.OK, serve("link2", job.Lead, recs), "another phone sends the record back")
	assert.Equal(t, sync.Fork, serve("link2", job.Lead, nil, forged("operation2", 2)))
	assert.Equal(t, sync.Fork, serve("link3", job.Helper, nil, forged("operation3", 3)))
	d.records = restored
	device := d.Device()
	d.act(t, job.Count(door, 4))
	d.exchange(t)
	assert.Equal(t, device, d.Device(), "its phone keeps the id")
	assert.EqualValues(t, 7, d.made(t))
}
