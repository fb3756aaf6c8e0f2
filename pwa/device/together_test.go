package device_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	gosync "sync"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asks returns the paths that the phone has requested since the last call.
func (b *tab) asks() []string {
	b.wire.mu.Lock()
	defer b.wire.mu.Unlock()
	asked := b.wire.asked
	b.wire.asked = nil
	return asked
}

// hold waits until a condition holds.
func (b *tab) hold(what string, is func() bool) {
	b.t.Helper()
	for !is() {
		require.NoError(b.t, b.ctx.Err(), what)
		runtime.Gosched() // there may be one thread only
	}
}

// withJobs returns an owner's phone on the list of n jobs, each with operations in both logs, all shared.
func withJobs(t *testing.T, n int) (b *tab, ids []string) {
	t.Helper()
	w := newWorld(t)
	b = w.phone(job.Owner, "Dora")
	b.enter("/")
	for i := range n {
		id := idOf(t, b.newJob(fmt.Sprint("p", i)))
		require.True(
			t,
			b.post(fmt.Sprint("c", i), "/jobs/"+id+"/brief", "title", fmt.Sprint("Reading room ", i), "contact.name",
				clientName).Stored,
		)
		ids = append(ids, id)
	}
	b.get("/")
	b.sent()
	b.settled()
	return b, ids
}

// settled waits until the phone is idle: twice in a row it redraws its page and requests no log except, once a tick,
// those of the open job.
func (b *tab) settled() {
	b.t.Helper()
	for quiet := 0; quiet < 2; {
		b.asks()
		b.say("tick")
		d := b.await("a redraw", func(d device.Drawing) bool { return d.Number == 0 && d.Parts["page"] != "" })
		logs := 0
		if strings.HasPrefix(d.Path, "/jobs/") {
			logs = -1
		}
		for _, path := range b.asks() {
			if path != "/api/v1/me" {
				logs++
			}
		}
		if quiet++; logs > 0 {
			quiet = 0
		}
		b.hold("the server to have answered", func() bool { return b.wire.idle() })
	}
}

// idle reports whether no request of this phone is in flight.
func (w *wire) idle() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.flying == 0
}

// TestFortyJobsAreOneRequest checks that a phone with forty jobs asks once about its user and the jobs' state, and then
// requests all changed jobs at once.
func TestFortyJobsAreOneRequest(t *testing.T) {
	b, ids := withJobs(t, 40)
	b.asks()
	b.say("wake")
	b.hold("the first request",
		func() bool { b.wire.mu.Lock(); defer b.wire.mu.Unlock(); return len(b.wire.asked) > 0 })
	b.hold("the answer", b.wire.idle)
	b.get("/calc")
	for _, path := range b.asks() {
		assert.Equal(t, "/api/v1/me", path, "nothing has changed, so no log is requested")
	}

	other := b.world.phone(job.Owner, "Ines")
	for i, id := range ids {
		other.enter("/jobs/" + id)
		require.True(t, other.tick(fmt.Sprint("t", i), "/jobs/"+id, "card/look").Stored)
	}
	other.get("/")
	other.sent()
	b.get("/jobs/" + ids[7])
	b.asks()
	b.say("wake")
	b.hold("all logs to arrive", func() bool {
		for _, id := range ids {
			if !strings.Contains(b.disk.text("log/"+id), fmt.Sprintf(`"cnt":%d,`, len(b.records(id)))) {
				return false
			}
		}
		return true
	})
	asked := b.asks()
	assert.LessOrEqual(t, len(asked), 3, "the user, the open job, and all the others: %v", asked)
	for _, path := range asked {
		assert.True(t, path == "/api/v1/me" || path == "/api/v1/sync", path)
	}
}

// TestTapIsStoredBetweenTwoJobs checks that while forty jobs sync, a tap is stored before any other job's log is read
// or written, except for the one in progress.
func TestTapIsStoredBetweenTwoJobs(t *testing.T) {
	first, ids := withJobs(t, 40)
	w := first.world
	at := "/jobs/" + ids[0]
	for i := range 4 {
		b := w.open(&handle{disk: first.disk.disk, left: -1}, first.wire, &[]*tab{})
		require.Equal(t, "drawn", b.enter(at+"/pack").Type)
		b.settled()
		w.mu.Lock()
		for _, ledger := range w.ledgers { // after a restore every log is read, sent and written
			ledger.SetEpoch(fmt.Sprint("again", i))
		}
		w.mu.Unlock()
		others := b.disk.watch(ids[0])
		gate := make(chan struct{})
		open := gosync.OnceFunc(func() {
			b.disk.set(func(h *handle) { h.gate = nil })
			close(gate)
		})
		t.Cleanup(open) // or the phone could not stop
		b.disk.set(func(h *handle) { h.gate = gate })
		b.say("wake")
		b.hold("another job to be in progress", b.disk.waits)
		b.number++
		n := b.number
		b.inbox <- device.Message{Type: "post", Number: n, ID: fmt.Sprint("tap", i), Path: at + "/do",
			Form: [][2]string{{"act", "pack"}, {"e", "pack/scissors"}, {"n", fmt.Sprint(i + 1)}, {"back", at + "/pack"}}}
		b.hold("the tap to wait", func() bool { return b.passedOn.Load() == int64(n) })
		before := len(others())
		open()
		d := b.await("the tap", func(d device.Drawing) bool { return d.Number == n })
		require.True(t, d.Stored, "%s refused %v at %s: %s %s", d.Type, d.Refused, d.Path, d.Parts["state"], d.Parts["page"])
		touched := others()[before:]
		touched = slices.Compact(touched[:slices.Index(touched, fmt.Sprint("post/tap", i))])
		assert.LessOrEqual(t, len(touched), 1, "tap %d: only the job in progress may be touched", i)
		b.passTime(true)
		b.settled()
	}
}

// TestATapWithoutSignalTouchesNoOtherJob checks that without signal a tap on a phone with forty jobs accesses no other
// job.
func TestATapWithoutSignalTouchesNoOtherJob(t *testing.T) {
	first, ids := withJobs(t, 40)
	b := first.world.open(&handle{disk: first.disk.disk, left: -1}, first.wire, &[]*tab{})
	b.wire.set(offline)
	at := "/jobs/" + ids[0]
	require.Equal(t, "drawn", b.enter(at+"/pack").Type)
	others := b.disk.watch(ids[0])
	for i := range 3 {
		b.say("wake")
		require.True(
			t,
			b.post(fmt.Sprint("tap", i), at+"/do", "act", "pack", "e", "pack/scissors", "n", fmt.Sprint(i+1), "back",
				at+"/pack").Stored,
		)
	}
	assert.Equal(t, []string{"post/tap0", "post/tap1", "post/tap2"}, others())
}

// rewinds lists the ways in which a server can lose its latest records.
var rewinds = []struct {
	name   string
	rewind func(w *world, log string, back *memory.Ledger) *memory.Ledger
}{
	{"a new epoch", func(_ *world, _ string, back *memory.Ledger) *memory.Ledger { back.SetEpoch("second"); return back }},
	{"an old file", func(_ *world, _ string, back *memory.Ledger) *memory.Ledger { return back }},
	{"an old file that has grown as long", func(w *world, log string, back *memory.Ledger) *memory.Ledger {
		head, _ := back.Head()
		_, err := server.Serve(back, server.Session{ID: "s", Author: job.Author{Role: job.Owner}},
			sync.Request{V: sync.WireVersion, Device: "elsewhere", Now: w.clock.Load(),
				Cursor: sync.Cursor{Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash},
				Ops: []job.Op{{ID: "grown" + log, Device: "elsewhere", Number: 1, Version: 1, Kind: job.Set,
					Entity: "card/grown", Field: "done", Value: []byte("true"), Wall: w.clock.Load()}}}, w.clock.Load())
		require.NoError(w.t, err)
		return back
	}},
	{"a file from before the job", func(*world, string, *memory.Ledger) *memory.Ledger { return nil }},
}

// TestARestoreHealsTheJobsThatAreNotOnTheScreen checks that after a restore every job is healed, not only the open one,
// and that "All shared" does not appear before.
func TestARestoreHealsTheJobsThatAreNotOnTheScreen(t *testing.T) {
	for _, row := range rewinds {
		t.Run(row.name, func(t *testing.T) {
			b, ids := withJobs(t, 3)
			w := b.world
			w.mu.Lock()
			backups := map[string]*memory.Ledger{}
			for log, ledger := range w.ledgers {
				backups[log] = ledger.Clone()
			}
			w.mu.Unlock()
			for i, id := range ids {
				require.True(t, b.tick(fmt.Sprint("t", i), "/jobs/"+id, "card/look").Stored)
			}
			b.get("/jobs/" + ids[0])
			b.sent()
			b.settled()
			w.mu.Lock()
			for _, id := range ids[1:] { // the server still has the open job
				for _, log := range []string{id, id + sync.OwnSuffix} {
					if back := row.rewind(w, log, backups[log]); back != nil {
						w.ledgers[log] = back
					} else {
						delete(w.ledgers, log)
					}
				}
			}
			w.mu.Unlock()
			w.clock.Add(61_000)
			b.passTime(true)
			b.say("tick") // without a wake, and without a change in the open job
			healed := func() bool {
				for _, id := range ids {
					if ticked(b.records(id))["card/look"] != 1 {
						return false
					}
				}
				return true
			}
			b.hold("all jobs to be healed", healed)
			d := b.await("the shared message",
				func(d device.Drawing) bool { return strings.Contains(d.Parts["state"], "All shared") && healed() })
			assert.Equal(t, "drawn", d.Type)
		})
	}
}

// TestJobBehindTheServerIsReported checks that "All shared" does not appear while a job is known to be behind the
// server.
func TestJobBehindTheServerIsReported(t *testing.T) {
	b, ids := withJobs(t, 2)
	b.get("/jobs/" + ids[0])
	b.sent()
	b.settled()
	b.world.mu.Lock()
	b.world.ledgers[ids[1]].SetEpoch("second")
	b.world.mu.Unlock()
	b.wire.set(func(x *wire) { x.refuses = ids[1] })
	b.world.clock.Add(61_000)
	b.say("tick")
	b.await("the message", func(d device.Drawing) bool {
		return strings.Contains(d.Parts["state"], "1 job is not up to date here")
	})
	b.say("tick")
	d := b.await("a redraw", func(d device.Drawing) bool { return d.Number == 0 && d.Parts["page"] != "" })
	assert.NotContains(t, d.Parts["state"], "All shared")
	b.wire.set(func(x *wire) { x.refuses = "" })
	b.passTime(true)
	b.await("all shared", func(d device.Drawing) bool { return strings.Contains(d.Parts["state"], "All shared") })
}

// TestAServerOfAnEarlierBuild checks that the phone detects a server that accepts one log per request, and shares
// everything with it.
func TestAServerOfAnEarlierBuild(t *testing.T) {
	b, ids := withJobs(t, 5)
	b.wire.set(func(x *wire) { x.old = true })
	other := b.world.phone(job.Owner, "Ines")
	other.wire.set(func(x *wire) { x.old = true })
	for i, id := range ids {
		other.enter("/jobs/" + id)
		require.True(t, other.tick(fmt.Sprint("t", i), "/jobs/"+id, "card/look").Stored)
	}
	other.get("/")
	other.sent()
	for _, id := range ids {
		assert.Equal(t, 1, ticked(b.records(id))["card/look"])
	}
	b.say("wake")
	b.hold("all logs to arrive", func() bool {
		for _, id := range ids {
			if !strings.Contains(b.disk.text("log/"+id), fmt.Sprintf(`"cnt":%d,`, len(b.records(id)))) {
				return false
			}
		}
		return true
	})
	tried := 0
	for _, path := range b.asks() {
		if path == "/api/v1/sync" {
			tried++
		}
	}
	assert.LessOrEqual(t, tried, 2, "only requests sent before the first answer")
	assert.Positive(t, tried)
}

// TestClosedPhoneSubmitsAgainAfterARestore checks that a phone with a closed link submits again what a restored server
// has lost, though the job has left the phone.
func TestClosedPhoneSubmitsAgainAfterARestore(t *testing.T) {
	w := newWorld(t)
	owner := w.phone(job.Owner, "Dora")
	owner.enter("/")
	id := idOf(t, owner.newJob("p"))
	owner.sent()
	helper := w.phone(job.Helper, "Ines")
	helper.wire.set(func(x *wire) { x.only = id })
	helper.enter("/jobs/" + id)
	helper.wire.set(offline)
	for i := range 3 {
		require.True(t, helper.tick(fmt.Sprint("t", i), "/jobs/"+id, fmt.Sprint("card/c", i)).Stored)
	}
	w.mu.Lock()
	backup := w.ledgers[id].Clone()
	w.mu.Unlock()
	helper.linkEnds(id)
	held := func() int {
		w.mu.Lock()
		defer w.mu.Unlock()
		return len(w.ledgers[id].Quarantine())
	}
	require.Equal(t, 3, held())
	opened := helper.again()
	opened.get("/calc")
	w.mu.Lock()
	backup.SetEpoch("second")
	w.ledgers[id] = backup
	w.mu.Unlock()
	require.Zero(t, held())
	opened.say("wake")
	opened.hold("it to be submitted again", func() bool { return held() == 3 })
	opened.hold("the job to leave again",
		func() bool { return !strings.Contains(strings.Join(opened.disk.keys(), " "), "log/"+id) })
	assert.Contains(t, opened.get("/phone").Parts["page"], "The owner decides")
	assert.Equal(t, "unknown", opened.get("/jobs/"+id).Type)
	opened.hold("what was asked before the job left", opened.wire.idle)
	opened.asks()
	for range 3 {
		opened.say("wake")
		opened.get("/phone")
	}
	opened.hold("the answers", opened.wire.idle)
	opened.get("/phone")
	for _, path := range opened.asks() {
		assert.Equal(t, "/api/v1/me", path, "it must be submitted only once")
	}
	assert.Equal(t, 3, held())
}

// TestPausesAreShortWhileSomebodyLooks checks that no pause after an outage exceeds half a minute while the page is
// visible.
func TestPausesAreShortWhileSomebodyLooks(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	b.wire.set(offline)
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.get(at)
	longest := func(rounds int) (most int64) {
		for range rounds {
			b.hold("a pause", func() bool { return b.pauses() > 0 })
			b.ringsMu.Lock()
			rings := b.rings
			b.rings = nil
			b.ringsMu.Unlock()
			before := w.clock.Load()
			for _, ring := range rings {
				ring()
			}
			most = max(most, w.clock.Load()-before)
		}
		return most
	}
	assert.LessOrEqual(t, longest(12), int64(30_000))
	b.say("hide")
	b.get(at)
	assert.Greater(t, longest(3), int64(30_000), "in a pocket it must ask less often")
}
