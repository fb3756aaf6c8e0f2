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

// A storage was emptied under two tabs: each brings back what it held, and the earlier value comes last. What was made
// later still stands, on the screen and on the server.
func TestWhatComesBackStandsInTheOrderItWasMade(t *testing.T) {
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

// What follows refused operations in a request was made in their sight, also under another device id.
func TestNothingOvertakesAForkedOperation(t *testing.T) {
	records := newServer()
	session := server.Session{ID: "bea", Author: job.Author{Role: job.Lead, Name: "Bea", Link: "link1"}}
	serve := func(ops ...job.Op) (results []sync.Result) {
		resp, err := server.Serve(records, session, sync.Request{V: sync.WireVersion, Device: "new", Now: start, Ops: ops},
			start)
		require.NoError(t, err)
		for _, a := range resp.Acks {
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

// A form that comes again names its operations as before; the outbox holds each once, and none stays behind.
func TestAFormThatComesAgainStandsOnceInTheOutbox(t *testing.T) {
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

// The storage is emptied while an answer is being stored: what the answer settled was never stored, and comes along as
// not handed in, whoever opened the storage first.
func TestWhatAnUnstoredAnswerSettledComesAlong(t *testing.T) {
	for _, fresh := range []bool{true, false} {
		d := newDevice(t, newServer())
		op := d.act(t, job.Count(door, 5))[0]
		req := d.request(t)
		_, err := d.Receive(log, req, d.answer(t, req), d.clock)
		require.NoError(t, err)
		require.Empty(t, d.Unsent(log), "its record came, so it left the outbox in memory")
		after := newDevice(t, newServer()) // and the server is put back to its beginning
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

// A storage refuses one answer after the other, and is found to be another one then: nothing that they settled was
// stored.
func TestWhatSeveralUnstoredAnswersSettledComesAlong(t *testing.T) {
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
	after := newDevice(t, newServer()) // and the server is put back to its beginning
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

// What is stored need not be brought along: the records of it are in the storage.
func TestWhatIsStoredIsNotSentAgain(t *testing.T) {
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
