package sync_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTickIsShownAtOnceAndSentOnce(t *testing.T) {
	d := newDevice(t, newServer())
	op := d.act(t, job.Count(door, 5))[0]
	assert.EqualValues(t, 5, d.made(t))
	assert.Equal(t, 1, d.Status(log).Waiting)
	assert.Equal(t, d.clock, d.Status(log).OldestWaiting)
	view, _ := d.State(log)
	assert.True(t, view.Tally(door).Entries[0].Pending())
	req := d.request(t)
	resp := d.answer(t, req) // the answer is lost and the phone killed
	d.open(t)
	assert.EqualValues(t, 5, d.made(t))
	assert.Equal(t, []job.Op{op}, d.Unsent(log), "still here")
	d.exchange(t)
	assert.EqualValues(t, 5, d.made(t), "counted once")
	assert.Zero(t, d.Status(log).Waiting)
	assert.Equal(t, d.clock, d.Status(log).Shared)
	assert.Empty(t, d.keys("out/"))
	assert.Len(t, d.keys("rec/"), 1)
	d.receive(t, req, resp) // the lost answer arrives late
	d.receive(t, req, resp)
	assert.EqualValues(t, 5, d.made(t))
	d.open(t)
	assert.EqualValues(t, 5, d.made(t))
}

// An operation acknowledged and recorded in one answer leaves the stored outbox too, so that a restarted phone does not
// send it again.
func TestSharedOperationLeavesTheStorage(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Put(door, "done", true))
	require.Len(t, d.keys("out/"), 1)
	req := d.request(t)
	step, err := d.Receive(log, req, d.answer(t, req), d.clock)
	require.NoError(t, err)
	d.save(t, step)
	assert.Empty(t, d.keys("out/"))
	assert.Zero(t, d.Status(log).Waiting)
}

func TestInvalidValueIsNotWritten(t *testing.T) {
	d := newDevice(t, newServer())
	_, step, err := d.Write(log, job.Put("piece/door", "name", "Door"), job.Put("piece/door", "length_mm", -1))
	var field *job.FieldError
	require.ErrorAs(t, err, &field)
	assert.Equal(t, "length_mm", field.Path)
	assert.True(t, step.Empty())
	assert.Empty(t, d.Unsent(log))
	_, _, err = d.Write(log, job.Put("own/contact", "name", "x"))
	assert.ErrorIs(t, err, job.ErrInvalid, "the contact never enters the shared log")
	_, _, err = d.Write("another", job.Count(door, 1))
	assert.ErrorIs(t, err, phone.ErrUntracked)
}

func TestRefusedOperationIsNotedAndTheRestIsSent(t *testing.T) {
	d := newDevice(t, newServer())
	d.as.Author.Role = job.Helper
	d.act(t, job.Count(door, 1))
	d.act(t, job.Put("piece/door", "name", "Mine"))
	d.act(t, job.Count(door, 1))
	d.exchange(t)
	assert.EqualValues(t, 2, d.made(t))
	require.Len(t, d.Notes(), 1)
	note := d.Notes()[0]
	assert.Equal(t, phone.NoteDenied, note.Kind)
	assert.Equal(t, "name", note.Op.Field)
	d.open(t)
	require.Len(t, d.Notes(), 1, "noted on disk")
	assert.Equal(t, 1, d.Status(log).Attention)
	step, err := d.Dismiss(d.Notes()[0].Key)
	require.NoError(t, err)
	d.save(t, step)
	d.open(t)
	assert.Empty(t, d.Notes())
	view, _ := d.State(log)
	assert.Empty(t, view.Registers["piece/door"], "the refused change is not shown")
}

func TestCopiedPhoneTakesANewID(t *testing.T) {
	server := newServer()
	d := newDevice(t, server)
	d.act(t, job.Count(door, 1))
	d.exchange(t)
	c := newDevice(t, server)
	c.ids = 1000
	c.disk = map[string][]byte{}
	for key, value := range d.disk {
		c.disk[key] = value
	}
	c.open(t)
	require.Equal(t, d.Device(), c.Device())
	d.act(t, job.Count(door, 10))
	mine := c.act(t, job.Count(door, 100), job.Put(door, "done", true))
	d.exchange(t)
	c.exchange(t)
	assert.NotEqual(t, d.Device(), c.Device())
	assert.EqualValues(t, 111, c.made(t))
	for _, op := range mine {
		rec, found, err := server.ByID(op.ID)
		require.NoError(t, err)
		require.True(t, found, "ids are kept")
		assert.Equal(t, c.Device(), rec.Device)
	}
	d.exchange(t)
	assert.EqualValues(t, 111, d.made(t))
}

func TestTwoTabsOverOneDisk(t *testing.T) {
	d := newDevice(t, newServer())
	other := *d // a second tab over the same disk
	other.open(t)
	d.act(t, job.Count(door, 1))
	_, step, err := other.Write(log, job.Count(door, 2))
	require.NoError(t, err)
	assert.NotEqual(t, phone.Revision(d.disk[phone.RowPhone]), step.If,
		"the second tab's step does not fit the disk any more")
	other.open(t) // it reloads and tries again
	other.act(t, job.Count(door, 2))
	d.open(t)
	assert.EqualValues(t, 3, d.made(t))
}

// Two tabs that write on the same revision get different new revisions, and so does a tab of an older build, which
// counts by one.
func TestTwoTabsGetDifferentRevisions(t *testing.T) {
	d := newDevice(t, newServer())
	next := map[uint64]bool{phone.Revision(d.disk[phone.RowPhone]) + 1: true}
	for _, random := range []float64{0.001, 0.5, 0.999} {
		options := d.options()
		options.Jitter = func() float64 { return random }
		p, _, err := phone.Open(d.rows(phone.OpenRanges()), options)
		require.NoError(t, err)
		step, err := p.SetAuthor(job.Author{Role: job.Owner})
		require.NoError(t, err)
		assert.Equal(t, phone.Revision(d.disk[phone.RowPhone]), step.If)
		assert.Greater(t, step.Rev, step.If)
		assert.False(t, next[step.Rev])
		next[step.Rev] = true
	}
}

func TestClosedLinkSendsAndIsForgotten(t *testing.T) {
	d := newDevice(t, newServer())
	d.act(t, job.Count(door, 1))
	d.exchange(t)
	d.act(t, job.Count(door, 2))
	_, err := d.Forget(log)
	assert.ErrorIs(t, err, phone.ErrUnsent, "not before it is sent")
	d.as.Closed, d.as.ClosedAt = sync.Revoked, start
	d.exchange(t)
	status := d.Status(log)
	assert.Equal(t, sync.Revoked, status.Closed)
	assert.Zero(t, status.Waiting)
	assert.False(t, d.Behind(log))
	require.Len(t, d.Notes(), 1)
	assert.Equal(t, phone.NoteQuarantined, d.Notes()[0].Kind)
	_, ok := d.Request(log, d.clock)
	assert.False(t, ok, "nothing is left to send")
	assert.EqualValues(t, 3, d.made(t))

	d.as.Closed = "" // the owner reopens the link
	d.act(t, job.Count(door, 4))
	d.exchange(t)
	assert.EqualValues(t, 7, d.made(t))
	assert.Empty(t, d.Notes(), "the job has the operations now")
	step, err := d.Forget(log)
	require.NoError(t, err)
	d.save(t, step)
	assert.Equal(t, []string{"phone"}, d.keys(""))
}

func TestJournalOperationsCountOnce(t *testing.T) {
	d := newDevice(t, newServer())
	op := d.act(t, job.Count(door, 5))[0]
	d.exchange(t)
	for _, ops := range [][]job.Op{{op}, {op, op, {ID: "not valid"}}} {
		step, err := d.Adopt(log, d.Author(), ops...)
		require.NoError(t, err)
		d.save(t, step)
	}
	d.exchange(t)
	assert.EqualValues(t, 5, d.made(t), "it was in the log already")
	assert.Empty(t, d.keys("out/"))
	lost := job.Op{ID: "operation-lost", Device: d.Device(), Number: 40, Version: 1, Kind: job.Add,
		Entity: door, Delta: 2, Wall: d.clock}
	step, err := d.Adopt(log, d.Author(), lost)
	require.NoError(t, err)
	d.save(t, step)
	assert.EqualValues(t, 41, d.act(t, job.Count(door, 1))[0].Number, "no number is used twice")
	d.exchange(t)
	assert.EqualValues(t, 8, d.made(t))
}

func TestPausesGrowAndEnd(t *testing.T) {
	d := newDevice(t, newServer())
	var pauses []int64
	for range 11 {
		pauses = append(pauses, (d.Failed(log, d.clock, "no signal", 0)-d.clock)/1000)
	}
	assert.Equal(t, []int64{1, 2, 4, 8, 16, 32, 64, 128, 256, 300, 300}, pauses)
	assert.Equal(t, "no signal", d.Status(log).Reason)
	assert.Equal(t, 11, d.Status(log).Failures)
	assert.Equal(t, d.clock+300_000, d.Failed(log, d.clock, "busy", 1<<50), "a server cannot silence a phone for longer")
	d.Wake()
	assert.Zero(t, d.Status(log).NextTry)
	assert.Equal(t, d.clock+30_000, d.Failed(log, d.clock, "busy", 30_000))
	d.exchange(t)
	assert.Zero(t, d.Status(log).Failures)
	options := d.options()
	options.Jitter = func() float64 { return 0.999999 }
	p, _, err := phone.Open(d.rows(phone.OpenRanges()), options)
	require.NoError(t, err)
	assert.InDelta(t, 500, p.Failed(log, 0, "", 0), 1, "shortened by up to half")
}

func TestClockDaysOffIsShown(t *testing.T) {
	for off, want := range map[int64]int{0: 0, 11 * hour: 0, 13 * hour: 1, -2*day - hour: -2, 400 * day: 400} {
		d := newDevice(t, newServer())
		d.clock += off
		d.act(t, job.Count(door, 1))
		d.exchange(t)
		assert.Equal(t, want, d.Status(log).ClockOffDays, off)
		assert.EqualValues(t, 1, d.made(t), "the count is accepted")
	}
}

func TestInvalidAnswersAreRefused(t *testing.T) {
	server := newServer()
	d := newDevice(t, server)
	other := newDevice(t, server)
	other.act(t, job.Count(door, 1), job.Put(door, "taken", "Bea"))
	other.exchange(t)
	d.act(t, job.Count(door, 10))
	req := d.request(t)
	good := d.answer(t, req)
	require.Len(t, good.Recs, 3)
	raw, err := json.Marshal(good)
	require.NoError(t, err)
	for name, damage := range map[string]func(*sync.Response){
		"no version":                 func(r *sync.Response) { r.V = 0 },
		"no epoch":                   func(r *sync.Response) { r.Epoch = "" },
		"a gap":                      func(r *sync.Response) { r.Recs = r.Recs[1:] },
		"too few":                    func(r *sync.Response) { r.Recs = r.Recs[:2] },
		"one twice":                  func(r *sync.Response) { r.Recs[1] = r.Recs[0]; r.Recs[1].Seq = 2 },
		"a wrong sequence number":    func(r *sync.Response) { r.Recs[2].Seq = 9 },
		"a stamp out of range":       func(r *sync.Response) { r.Recs[0].Effective = 1 << 62 },
		"no id":                      func(r *sync.Response) { r.Recs[0].ID = "" },
		"a value that is no JSON":    func(r *sync.Response) { r.Recs[1].Value = []byte("{") },
		"a head before the end":      func(r *sync.Response) { r.Head = 1 },
		"more without more":          func(r *sync.Response) { r.More = true },
		"more but no records":        func(r *sync.Response) { r.Recs, r.Seq, r.More = nil, 0, true },
		"a clock out of range":       func(r *sync.Response) { r.Now = 1 << 62 },
		"rewound at the beginning":   func(r *sync.Response) { r.Rewound, r.Recs = true, nil },
		"records for a closed link":  func(r *sync.Response) { r.Closed = sync.Ended },
		"a place before the records": func(r *sync.Response) { r.Seq = 2 },
		"a head out of range":        func(r *sync.Response) { r.Head, r.More = 1<<63, false },
	} {
		var bad sync.Response
		require.NoError(t, json.Unmarshal(raw, &bad))
		damage(&bad)
		before := fmt.Sprint(d.Status(log))
		step, err := d.Receive(log, req, bad, d.clock)
		require.ErrorIs(t, err, sync.ErrResponse, name)
		assert.True(t, step.Empty(), name)
		assert.Equal(t, before, fmt.Sprint(d.Status(log)), name)
		assert.Len(t, d.Unsent(log), 1, name)
	}
	newer := good
	newer.MinV = 2
	_, err = d.Receive(log, req, newer, d.clock)
	assert.ErrorIs(t, err, sync.ErrTooOld)
	d.receive(t, req, good)
	assert.EqualValues(t, 11, d.made(t))
}

// A long outbox is sent in requests of the allowed size.
func TestLongOutboxIsSentInParts(t *testing.T) {
	d := newDevice(t, newServer())
	for range 6 {
		var changes []job.Change
		for range 200 {
			changes = append(changes, job.Count(door, 1))
		}
		d.act(t, changes...)
	}
	long := make([]byte, 3900)
	for i := range long {
		long[i] = 'x'
	}
	for range 300 {
		d.act(t, job.Put("piece/door", "notes", string(long)))
	}
	for d.Behind(log) {
		req := d.request(t)
		raw, err := json.Marshal(req)
		require.NoError(t, err)
		require.LessOrEqual(t, len(raw), sync.MaxBytes)
		decoded, err := sync.DecodeRequest(raw)
		require.NoError(t, err)
		d.receive(t, req, d.answer(t, decoded))
	}
	assert.EqualValues(t, 1200, d.made(t))
}
