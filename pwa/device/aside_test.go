package device_test

import (
	"encoding/json"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spoilt simulates jobs that stop the core, and records what the core reports about them.
type spoilt struct {
	t        testing.TB
	setAside []string
	bad      atomic.Pointer[string] // work on this job panics
	begun    atomic.Int64           // how often work on a job began
	told     chan string
}

func (s *spoilt) working(id string) {
	if id != "" {
		s.begun.Add(1)
	}
	if bad := s.bad.Load(); bad != nil && id == *bad {
		panic("a fault in work on " + id)
	}
}

func (s *spoilt) stopped(id, why string) {
	if s.told == nil { // recovery must not hide a fault from the tests
		s.t.Errorf("the core stopped over job %s: %s", id, why)
		return
	}
	s.told <- id
}

// twoJobs returns an owner's phone with two jobs, both shared.
func twoJobs(t *testing.T) (w *world, b *tab, good, bad string) {
	w = newWorld(t)
	w.spoilt.told = make(chan string, 8)
	b = w.phone(job.Owner, "Dora")
	b.enter("/")
	good, bad = idOf(t, b.newJob("good")), idOf(t, b.newJob("bad"))
	b.sent()
	return w, b, good, bad
}

func TestAPanicOverOneJobLeavesTheOthers(t *testing.T) {
	w, b, good, bad := twoJobs(t)
	w.spoilt.bad.Store(&bad)
	d := b.get("/jobs/" + bad)
	assert.Equal(t, "unknown", d.Type, "the server must answer instead")
	assert.Equal(t, bad, <-w.spoilt.told)
	d = b.get("/jobs/" + good)
	assert.Equal(t, "drawn", d.Type)
	d = b.tick("t", "/jobs/"+good, "card/look")
	assert.True(t, d.Stored)
	b.sent()
	list := b.get("/").Parts["page"]
	assert.Contains(t, list, "can’t open this job")
	assert.Contains(t, list, `data-again="`+bad+`"`)
	assert.Contains(t, list, `href="/jobs/`+good+`"`)
	d = b.post("x", "/jobs/"+bad+"/do", "act", "tick", "e", "card/look")
	assert.Equal(t, "unknown", d.Type, "the page sends it to the server")
	assert.Empty(t, w.spoilt.told, "reported once")
}

// The list of jobs reads each job and plans it. Both are work that this job may break, so that only it is set aside.
func TestTheListSaysWhichJobItPlans(t *testing.T) {
	w, b, _, _ := twoJobs(t)
	b.passTime(true)
	for strings.Contains(b.get("/").Parts["page"], "data-later") { // drawing covers is work on jobs too
		require.NoError(t, w.ctx.Err(), "the covers are never drawn")
		runtime.Gosched()
	}
	b.passTime(false)
	before := w.spoilt.begun.Load()
	require.Equal(t, "drawn", b.get("/").Type)
	assert.GreaterOrEqual(t, w.spoilt.begun.Load()-before, int64(4), "two jobs, read and planned")
}

// TestWorkOnAJobSetAsideIsSent checks that a core that starts after others have stopped over a job does not open it,
// and sends the job's waiting operations.
func TestWorkOnAJobSetAsideIsSent(t *testing.T) {
	w, b, good, bad := twoJobs(t)
	b.wire.set(func(wi *wire) { wi.offline = true })
	b.tick("t1", "/jobs/"+bad, "card/look")
	b.tick("t2", "/jobs/"+good, "card/look")
	before := len(w.records(bad))
	w.spoilt.setAside = []string{bad}
	w.spoilt.bad.Store(&bad)
	opened := b.again()
	opened.say("wake")
	list := opened.get("/").Parts["page"]
	assert.Contains(t, list, "1 change of yours will still be shared")
	page := opened.ask(device.Message{Type: "offline", Path: "/jobs/" + bad})
	assert.Contains(t, page.Parts["page"], "can’t open this job", "without signal as well")
	file := opened.get("/jobs/" + bad + "/export")
	require.Equal(t, "file", file.Type)
	var waiting []job.Op
	require.NoError(t, json.Unmarshal([]byte(file.Text), &waiting))
	require.NotEmpty(t, waiting)
	b.wire.set(func(wi *wire) { wi.offline = false })
	for !strings.Contains(opened.get("/").Parts["page"], "All you did in it is shared") {
		require.NoError(t, w.ctx.Err(), "it is never sent")
		opened.say("wake")
		runtime.Gosched()
	}
	assert.Len(t, w.records(bad), before+len(waiting))
	require.Equal(t, "drawn", opened.get("/jobs/"+good).Type)
	assert.Zero(t, opened.stoppedOver.Load())

	w.spoilt.setAside = nil // a newer build does not stop
	w.spoilt.bad.Store(nil)
	newer := opened.again()
	newer.say("wake")
	assert.Equal(t, "drawn", newer.get("/jobs/"+bad).Type)
	newer.sent()
	assert.Len(t, w.records(bad), before+len(waiting), "nothing was accepted twice")
}

// TestAnAnswerThatCouldStopTheCore checks that an old server's answer that could stop the core affects only its job:
// the page names it and other jobs work.
func TestAnAnswerThatCouldStopTheCore(t *testing.T) {
	w, b, good, bad := twoJobs(t)
	deep := job.Rec{
		Op: job.Op{ID: "operation1", Device: "x", Number: 1, Version: 1, Kind: "wave", Entity: "card/look",
			Value: json.RawMessage(strings.Repeat("[", 9000) + strings.Repeat("]", 9000))},
	}
	b.wire.set(func(wi *wire) {
		wi.instead = map[string]sync.Response{bad: {V: 1, Epoch: "first", Head: 99, Seq: 99, Recs: []job.Rec{deep}}}
	})
	b.tick("t1", "/jobs/"+bad, "card/look")
	for !strings.Contains(b.get("/phone").Parts["page"], "could not be read") {
		require.NoError(t, w.ctx.Err(), "no reason is given")
		runtime.Gosched()
	}
	assert.Equal(t, "drawn", b.get("/jobs/"+bad).Type, "the earlier records stay")
	d := b.tick("t2", "/jobs/"+good, "card/look")
	assert.True(t, d.Stored)
	require.NotEmpty(t, w.records(good))
}
