package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	tab  = server.Session{ID: "tab", Author: job.Author{Role: job.Lead, Name: "Tablet", Link: "link1"}}
	ines = server.Session{ID: "ines", Author: job.Author{Role: job.Lead, Name: "Ines", Link: "link2"}}
)

// stamping is a server for tests of the stamps on one register.
type stamping struct {
	*memory.Ledger
	*testing.T
}

func (s stamping) serve(who server.Session, now int64, heal []job.Rec, ops ...job.Op) {
	s.Helper()
	for _, a := range send(s.T, s.Ledger, who, now, heal, ops...) {
		require.Equal(s, sync.OK, a.Result, a.ID)
	}
}

func (s stamping) stamp(id string) int64 {
	s.Helper()
	rec, found, err := s.ByID(id)
	require.NoError(s, err)
	require.True(s, found, id)
	return rec.Effective
}

func settingOf(id, device string, number uint64, made int64, parents ...string) job.Op {
	return job.Op{ID: id, Device: device, Number: number, Version: 1, Kind: job.Set, Entity: door, Field: "done",
		Value: []byte("true"), Wall: made, Parents: parents}
}

// A restored server has accepted an earlier operation of a device at a later time. When the device's record comes back,
// its stamp is raised. Operations that overruled it, and those built on them, still overrule it.
func TestOrderAboveARaisedStamp(t *testing.T) {
	before, restored := stamping{newServer(), t}, stamping{newServer(), t}
	before.serve(tab, start+hour, nil, settingOf("operation2", "tab", 2, start+hour))
	before.serve(ines, start+2*hour, nil, settingOf("operation3", "ines", 1, start+2*hour)) // has not seen operation2
	recs, err := before.Read(1, 10)
	require.NoError(t, err)
	restored.serve(tab, start+5*hour, nil, settingOf("operation1", "tab", 1, start+5*hour))
	restored.serve(ines, start+6*hour, recs, settingOf("operation4", "ines", 2, start+3*hour, "operation3"))
	assert.Greater(t, restored.stamp("operation2"), restored.stamp("operation1"), "a device's own order")
	assert.Greater(t, restored.stamp("operation3"), restored.stamp("operation2"), "it overruled it before")
	assert.Greater(t, restored.stamp("operation4"), restored.stamp("operation3"))
	assert.Greater(t, restored.stamp("operation4"), restored.stamp("operation2"))
}

// A restored server has accepted a later operation of a device at an earlier time. When the device's record comes back,
// its stamp is lowered. Operations whose author had seen it overrule it and what it overruled.
func TestOrderAboveALoweredStamp(t *testing.T) {
	before, restored := stamping{newServer(), t}, stamping{newServer(), t}
	before.serve(ines, start+hour, nil, settingOf("operation1", "bea", 1, start+hour))
	before.serve(tab, start+2*hour, nil, settingOf("operation2", "tab", 1, start+2*hour)) // has not seen operation1
	recs, err := before.Read(1, 10)
	require.NoError(t, err)
	restored.serve(tab, start+5*hour, nil, settingOf("operation3", "tab", 2, start+hour/2)) // its clock was put back
	restored.serve(ines, start+6*hour, recs, settingOf("operation4", "ines", 2, start, "operation2"))
	assert.Less(t, restored.stamp("operation2"), restored.stamp("operation3"), "a device's own order")
	assert.Greater(t, restored.stamp("operation4"), restored.stamp("operation2"))
	assert.Greater(t, restored.stamp("operation4"), restored.stamp("operation1"), "its author had seen that too")
}

// A phone was copied with a form in its journal. Both phones made an operation of it with the same id and device id but
// different numbers. An operation built on the second one overrules its parents.
func TestOrderAboveADuplicateOfACopiedPhone(t *testing.T) {
	records := stamping{newServer(), t}
	records.serve(tab, start+hour, nil, settingOf("operation1", "tab", 13, start),
		settingOf("operation2", "tab", 20, start+hour))
	acks := send(t, records.Ledger, tab, start+2*hour, nil, settingOf("operation3", "tab", 16, start+hour/2),
		settingOf("operation1", "tab", 17, start, "operation3"), settingOf("operation4", "tab", 18, start, "operation1"))
	require.Equal(t, []sync.Ack{{ID: "operation3", Result: sync.OK}, {ID: "operation1", Result: sync.Duplicate},
		{ID: "operation4", Result: sync.OK}}, acks)
	assert.Greater(t, records.stamp("operation4"), records.stamp("operation3"))
}
