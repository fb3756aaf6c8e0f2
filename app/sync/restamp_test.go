package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A record comes back to a restored server that has meanwhile taken an earlier operation of its device at a later time, so
// that it is lifted. What stood above it once, and what was made upon that, stays above it.
func TestWhatStoodAboveARecordThatIsLiftedStaysAboveIt(t *testing.T) {
	tab := sync.Session{ID: "tab", Author: job.Author{Role: job.Lead, Name: "Tablet", Link: "link1"}}
	ines := sync.Session{ID: "ines", Author: job.Author{Role: job.Lead, Name: "Ines", Link: "link2"}}
	op := func(id, device string, number uint64, made int64, parents ...string) job.Op {
		return job.Op{ID: id, Device: device, Number: number, Version: 1, Kind: job.Set, Entity: door, Field: "done",
			Value: []byte("true"), Wall: made, Parents: parents}
	}
	serve := func(l sync.Ledger, who sync.Session, now int64, heal []job.Rec, ops ...job.Op) {
		req := sync.Request{V: sync.WireVersion, Device: who.ID, Now: now, Ops: ops, Heal: heal}
		resp, err := sync.Serve(l, who, req, now)
		require.NoError(t, err)
		for _, a := range resp.Acks {
			require.Equal(t, sync.OK, a.Result, a.ID)
		}
	}
	before := newServer()
	second := op("operation2", "tab", 2, start+hour)
	serve(before, tab, start+hour, nil, second)
	serve(before, ines, start+2*hour, nil, op("operation3", "ines", 1, start+2*hour)) // made unaware of the one below
	recs, err := before.Read(1, 10)
	require.NoError(t, err)

	restored := newServer()
	serve(restored, tab, start+5*hour, nil, op("operation1", "tab", 1, start+5*hour))
	serve(restored, ines, start+6*hour, recs, op("operation4", "ines", 2, start+3*hour, "operation3")) // both were in sight
	stamp := func(id string) int64 {
		rec, found, err := restored.ByID(id)
		require.NoError(t, err)
		require.True(t, found, id)
		return rec.Effective
	}
	assert.Greater(t, stamp("operation2"), stamp("operation1"), "a device's own order")
	assert.Greater(t, stamp("operation3"), stamp("operation2"), "it stood above once")
	assert.Greater(t, stamp("operation4"), stamp("operation3"))
	assert.Greater(t, stamp("operation4"), stamp("operation2"))
}
