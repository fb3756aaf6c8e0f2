package sync_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// closedDevice returns a phone with a closed link that has sent three operations, and the server from before. If
// forgets is true, the phone has dropped the job since, as phones do.
func closedDevice(t *testing.T, forgets bool) (d *device, before *memory.Ledger) {
	t.Helper()
	d = newDevice(t, newServer())
	d.act(t, job.Count(door, 1))
	d.exchange(t)
	d.as.Closed, d.as.ClosedAt = sync.Revoked, start
	before = d.records.Clone()
	for n := range 3 {
		d.act(t, job.Count(door, int64(10+n)))
	}
	d.exchange(t)
	require.Len(t, d.records.Quarantine(), 3)
	if forgets {
		step, err := d.Forget(log)
		require.NoError(t, err)
		d.save(t, step)
		require.Empty(t, append(append(d.keys("rec/"), d.keys("out/")...), d.keys("log/")...))
	}
	d.reopen(t)
	return d, before
}

// reopen starts the app from the disk without tracking a log.
func (d *device) reopen(t testing.TB) {
	t.Helper()
	p, _, err := phone.Open(d.rows(phone.OpenRanges()), d.options())
	require.NoError(t, err)
	d.Phone = p
}

// report returns what the server reports about the log outside an exchange.
func (d *device) report(t testing.TB) sync.HandedLog {
	t.Helper()
	head, err := d.records.Head()
	require.NoError(t, err)
	held, _, err := d.records.HeldBy(d.as.ID)
	require.NoError(t, err)
	return sync.HandedLog{Log: log, Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash, Held: held}
}

// checkIn handles the server's report, does the exchanges that it asks for, and returns how many operations were sent.
func (d *device) checkIn(t testing.TB) (sent int) {
	t.Helper()
	require.Equal(t, []string{log}, d.HandedLogs())
	step, err := d.SendAgain(d.report(t), d.as.Closed)
	require.NoError(t, err)
	d.save(t, step)
	for d.Behind(log) {
		req := d.request(t)
		resp := d.answer(t, req)
		if !resp.Rewound { // else the server accepted nothing
			sent += len(req.Ops)
		}
		d.receive(t, req, resp)
	}
	return sent
}

func TestQuarantineIsSentAgainAfterARestore(t *testing.T) {
	for _, row := range []struct {
		name    string
		forgets bool
		lose    func(before *memory.Ledger)
	}{
		{"announced", false, func(m *memory.Ledger) { m.SetEpoch("epoch2") }},
		{"announced, the job has left the phone", true, func(m *memory.Ledger) { m.SetEpoch("epoch2") }},
		{"a file copied back", false, func(*memory.Ledger) {}},
		{"a file copied back, the job has left the phone", true, func(*memory.Ledger) {}},
	} {
		t.Run(row.name, func(t *testing.T) {
			d, before := closedDevice(t, row.forgets)
			assert.Zero(t, d.checkIn(t), "the server has it")
			row.lose(before)
			d.records = before
			require.Empty(t, d.records.Quarantine())
			assert.Equal(t, 3, d.checkIn(t))
			assert.Len(t, d.records.Quarantine(), 3)
			assert.Len(t, d.Notes(), 3, "each is noted once")
			assert.Zero(t, d.Status(log).Waiting)
			for range 3 {
				assert.Zero(t, d.checkIn(t), "it is sent only once")
			}
			d.reopen(t)
			assert.Zero(t, d.checkIn(t), "not even after a restart")
		})
	}
}

func TestSendingAgainShowsNoJob(t *testing.T) {
	d, before := closedDevice(t, true)
	d.records = before
	step, err := d.SendAgain(d.report(t), d.as.Closed)
	require.NoError(t, err)
	d.save(t, step)
	assert.Equal(t, 3, d.Status(log).Waiting)
	assert.Equal(t, sync.Revoked, d.Status(log).Closed)
	d.load(t)
	_, there := d.State(log)
	assert.False(t, there)
	d.exchange(t)
	_, err = d.Forget(log)
	assert.NoError(t, err)
}

func TestDecidedOperationsAreNotSentAgain(t *testing.T) {
	for _, forgets := range []bool{false, true} {
		d, _ := closedDevice(t, forgets)
		held := d.records.Quarantine()
		require.NoError(t, server.Release(d.records, held[0], start+day))
		d.records.Unhold(held[0].Op.ID) // the others are ignored: they stay held
		sent := d.checkIn(t)
		assert.LessOrEqual(t, sent, 3, "once, to ask for the decision")
		assert.Len(t, d.Notes(), 2, "the accepted one is settled")
		for range 3 {
			assert.Zero(t, d.checkIn(t))
		}
		d.records.SetEpoch("epoch2")
		assert.LessOrEqual(t, d.checkIn(t), 3)
		assert.Len(t, d.records.Quarantine(), 2)
		assert.Zero(t, d.checkIn(t))
	}
}

func TestOperationOfADismissedNoteIsSentAgain(t *testing.T) {
	d, before := closedDevice(t, true)
	for _, n := range d.Notes() {
		step, err := d.Dismiss(n.Key)
		require.NoError(t, err)
		d.save(t, step)
	}
	d.reopen(t)
	assert.Empty(t, d.Notes())
	assert.Zero(t, d.Status(log).Attention)
	d.records = before
	assert.Equal(t, 3, d.checkIn(t))
	assert.Len(t, d.records.Quarantine(), 3)
	assert.Empty(t, d.Notes(), "a dismissed note stays dismissed")
}

func TestSendingAgainRespectsTheLimit(t *testing.T) {
	d, before := closedDevice(t, true)
	d.records = before
	for n := range server.MaxHeldOps {
		require.NoError(t,
			before.Hold(server.Held{Op: job.Op{ID: "other" + string(rune('a'+n%26)) + string(rune('a'+n/26))},
				Session: d.as.ID}))
	}
	before.SetEpoch("epoch2")
	assert.Equal(t, 3, d.checkIn(t))
	require.Len(t, d.Notes(), 3)
	assert.Equal(t, phone.NoteDenied, d.Notes()[0].Kind, "it is listed, to show to the owner")
	assert.Empty(t, d.HandedLogs())
}

// A phone of an earlier build has noted what it sent, but not the server's answer.
func TestPhoneOfAnEarlierBuildSendsAgainOnce(t *testing.T) {
	d, before := closedDevice(t, true)
	for _, key := range d.keys("handed/") {
		delete(d.disk, key)
	}
	d.reopen(t)
	d.records = before
	assert.Equal(t, 3, d.checkIn(t))
	assert.Zero(t, d.checkIn(t))
}
