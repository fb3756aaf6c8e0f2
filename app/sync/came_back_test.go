package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A storage was emptied under two tabs. Each brings back what it held, the earlier value last. The later value still
// wins, on the screen and on the server.
func TestAdoptedOperationsKeepTheirOrder(t *testing.T) {
	d := newDevice(t, newServer())
	first := d.act(t, job.Put(door, "done", true))
	second := d.act(t, job.Put(door, "done", false))
	again := newDevice(t, d.records)
	for _, ops := range [][]job.Op{second, first} {
		step, err := again.Adopt(log, again.Author(), ops...)
		require.NoError(t, err)
		again.save(t, step)
	}
	check := func(when string) {
		view, _ := again.State(log)
		assert.Equal(t, "false", string(view.Register(door, "done").Value()), when)
	}
	check("at once")
	assert.Equal(t, append(first, second...), again.Unsent(log))
	again.open(t)
	check("after a restart")
	assert.Equal(t, append(first, second...), again.Unsent(log))
	again.exchange(t)
	check("on the server")
}

// Operations that follow a refused one in a request wait with it, even under another device id.
func TestOperationsAfterAForkWait(t *testing.T) {
	records := newServer()
	session := server.Session{ID: "bea", Author: job.Author{Role: job.Lead, Name: "Bea", Link: "link1"}}
	serve := func(ops ...job.Op) (results []sync.Result) {
		for _, a := range send(t, records, session, start, nil, ops...) {
			results = append(results, a.Result)
		}
		return results
	}
	op := func(id, device string, number uint64, parents ...string) job.Op {
		return job.Op{ID: id, Device: device, Number: number, Version: 1, Kind: job.Set, Entity: door,
			Field: "done", Value: []byte("true"), Wall: start, Parents: parents}
	}
	require.Equal(t, []sync.Result{sync.OK}, serve(op("operation1", "old", 1)))
	forked, after := op("operation2", "old", 1), op("operation3", "new", 2, "operation2")
	assert.Equal(t, []sync.Result{sync.Fork}, serve(forked, after), "the second one is not answered")
	forked.Device = "new"
	assert.Equal(t, []sync.Result{sync.OK, sync.OK}, serve(forked, after))
}

// A repeated form gives its operations the same ids. The outbox holds each once and is empty after the exchange.
func TestRepeatedFormIsOnceInTheOutbox(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Count(door, 5))
	d.ids-- // the next operation gets the same name
	d.act(t, job.Count(door, 5))
	assert.Len(t, d.Unsent(log), 1)
	assert.EqualValues(t, 5, d.made(t))
	d.exchange(t)
	assert.EqualValues(t, 5, d.made(t))
	assert.Empty(t, d.keys("out/"))
}

// The storage is emptied while an answer is being stored. Operations that the answer settled were never stored, so the
// phone sends them again, whichever tab opened the storage first.
func TestMergeKeepsOperationsOfAnUnstoredAnswer(t *testing.T) {
	for _, fresh := range []bool{true, false} {
		d := newDevice(t, newServer())
		op := d.act(t, job.Count(door, 5))[0]
		req := d.request(t)
		_, err := d.Receive(log, req, d.answer(t, req), d.clock)
		require.NoError(t, err)
		require.Empty(t, d.Unsent(log), "its record came, so the outbox in memory is empty")
		after := newDevice(t, newServer()) // the server is restored to its beginning
		if fresh {
			after.disk = map[string][]byte{}
			phone, step, err := phone.Open(nil, after.options())
			require.NoError(t, err)
			after.Phone = phone
			after.save(t, step)
		}
		step, err := after.Merge(d.Phone, fresh)
		require.NoError(t, err)
		after.save(t, step)
		require.Len(t, after.Unsent(log), 1, "fresh: %v", fresh)
		assert.Equal(t, op.ID, after.Unsent(log)[0].ID)
	}
}

// The storage refuses several answers and is then found empty: nothing that they settled was stored.
func TestMergeKeepsOperationsOfSeveralUnstoredAnswers(t *testing.T) {
	d := newDevice(t, newServer())
	d.Stored()
	var made []string
	for n := range 3 {
		ops, _, err := d.Write(log, job.Count(door, int64(n)+1)) // not saved
		require.NoError(t, err)
		made = append(made, ops[0].ID)
		req := d.request(t)
		_, err = d.Receive(log, req, d.answer(t, req), d.clock)
		require.NoError(t, err)
	}
	require.Empty(t, d.Unsent(log))
	after := newDevice(t, newServer()) // the server is restored to its beginning
	step, err := after.Merge(d.Phone, true)
	require.NoError(t, err)
	after.save(t, step)
	var back []string
	for _, op := range after.Unsent(log) {
		back = append(back, op.ID)
	}
	assert.Equal(t, made, back)
	after.exchange(t)
	assert.EqualValues(t, 6, after.made(t))
}

// Stored operations are not sent again: their records are in the storage.
func TestStoredOperationsAreNotSentAgain(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Count(door, 5))
	d.exchange(t)
	d.Stored()
	after := newDevice(t, d.records)
	step, err := after.Merge(d.Phone, true)
	require.NoError(t, err)
	after.save(t, step)
	assert.Empty(t, after.Unsent(log))
}
