package device_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"sort"
	"strings"
	gosync "sync"
	"sync/atomic"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/require"
)

// patience bounds every wait of these tests; nothing waits that long unless something is broken.
const patience = 30 * time.Second

// world is a server and a clock; phones join it.
type world struct {
	t     testing.TB
	ctx   context.Context
	clock atomic.Int64
	ids   atomic.Int64

	mu      gosync.Mutex
	ledgers map[string]*sync.Memory
}

func newWorld(t testing.TB) *world {
	ctx, stop := context.WithTimeout(context.Background(), patience)
	t.Cleanup(stop)
	w := &world{t: t, ctx: ctx, ledgers: map[string]*sync.Memory{}}
	w.clock.Store(1_800_000_000_000)
	return w
}

func (w *world) newID() string { return fmt.Sprintf("abcdefghijklmnopqrst%06d", w.ids.Add(1)) }

// records gives what the server holds of a log.
func (w *world) records(log string) []job.Rec {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ledgers[log] == nil {
		return nil
	}
	recs, err := w.ledgers[log].Read(1, 1<<20)
	require.NoError(w.t, err)
	return recs
}

// disk is the storage of one phone; its tabs share it.
type disk struct {
	mu         gosync.Mutex
	generation string
	rows       map[string]string
}

func (d *disk) keys() []string {
	d.mu.Lock()
	defer d.mu.Unlock()
	var keys []string
	for k := range d.rows {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// handle is how one tab holds the disk.
type handle struct {
	*disk
	full   bool // commits are refused
	silent bool // the next commit is written, but its answer is lost
	left   int  // commits until the tab is killed; below 0: never
	holds  bool // commits that take a whole log off are refused

	slowKey string        // the commit that writes this key takes
	slowTo  chan struct{} // until this is closed
}

var errKilled = errors.New("this tab is dead")

func (h *handle) Read(s device.Span) ([]device.Entry, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.left == 0 {
		return nil, errKilled
	}
	var entries []device.Entry
	for k, text := range h.rows {
		if s.First <= k && k < s.Last {
			entries = append(entries, device.Entry{Key: k, Text: text})
		}
	}
	sort.Slice(entries, func(a, b int) bool { return entries[a].Key < entries[b].Key })
	return entries, nil
}

func (h *handle) Commit(b device.Batch) (bool, error) {
	h.mu.Lock()
	slowKey, slowTo := h.slowKey, h.slowTo
	h.mu.Unlock()
	for _, e := range b.Put {
		if e.Key == slowKey {
			<-slowTo
		}
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	switch {
	case h.left == 0:
		return false, errKilled
	case h.full, h.holds && len(b.Empty) > 0:
		return false, errors.New("no room left")
	case h.generation != b.Expected:
		return false, nil
	}
	for _, s := range b.Empty {
		for k := range h.rows {
			if s.First <= k && k < s.Last {
				delete(h.rows, k)
			}
		}
	}
	for _, k := range b.Delete {
		delete(h.rows, k)
	}
	for _, e := range b.Put {
		h.rows[e.Key] = e.Text
	}
	h.generation = b.Next
	if h.left > 0 {
		h.left--
	}
	if h.silent {
		h.silent = false
		return false, errors.New("the storage did not answer")
	}
	return true, nil
}

func (h *handle) set(change func(*handle)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	change(h)
}

// wire is one phone's way to the server.
type wire struct {
	*world
	session sync.Session
	offline bool          // nothing gets through
	lose    int           // answers that get lost from now on
	status  int           // what the server answers instead, if not 0
	hang    chan struct{} // lie-fi: every exchange waits for this to close, then comes to nothing
	asked   []string      // paths, in order

	syncStatus int    // what the server answers to an exchange of a log, if not 0
	only       string // the one job that this session may see; "" for all
	refuses    string // the log whose exchange the server has no time for; "" for none
	role       string // for whom the server drew the page that the next tab opens on
}

func (w *wire) set(change func(*wire)) {
	w.mu.Lock()
	defer w.mu.Unlock()
	change(w)
}

func (w *wire) Fetch(method, path, body string, _ time.Duration) device.Answer {
	w.mu.Lock()
	hang := w.hang
	w.mu.Unlock()
	if hang != nil {
		select {
		case <-hang:
		case <-w.ctx.Done():
		}
		return device.Answer{}
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.asked = append(w.asked, path)
	switch {
	case w.offline:
		return device.Answer{}
	case w.status != 0:
		return device.Answer{Status: w.status, RetryAfter: "2"}
	}
	if w.syncStatus != 0 && method == "POST" {
		return device.Answer{Status: w.syncStatus}
	}
	answer := w.serve(method, path, body)
	if w.lose > 0 {
		w.lose--
		return device.Answer{}
	}
	return answer
}

func (w *wire) serve(method, path, body string) device.Answer {
	if method == "GET" && path == "/api/v1/me" {
		return w.me()
	}
	log, isSync := strings.CutSuffix(strings.TrimPrefix(path, "/api/v1/jobs/"), "/sync")
	if id, own := strings.CutSuffix(log, "/own"); own {
		log = id + sync.OwnSuffix
	}
	if isSync && w.refuses == log {
		return device.Answer{Status: 503}
	}
	if method != "POST" || !isSync || w.only != "" && w.only != log {
		return device.Answer{Status: 404}
	}
	ledger := w.ledgers[log]
	if ledger == nil {
		if w.session.Author.Role != job.Owner {
			return device.Answer{Status: 404}
		}
		ledger = sync.NewMemory(log, "first", []byte("a key of thirty-two bytes or so.."), w.clock.Load())
		w.ledgers[log] = ledger
	}
	var req sync.Request
	if json.Unmarshal([]byte(body), &req) != nil {
		return device.Answer{Status: 400}
	}
	resp, err := sync.Serve(ledger, w.session, req, w.clock.Load())
	if errors.Is(err, sync.ErrOther) {
		return device.Answer{Status: 409}
	}
	if err != nil {
		return device.Answer{Status: 400}
	}
	return toAnswer(resp)
}

func (w *wire) me() device.Answer {
	jobs := []map[string]string{}
	if w.session.Closed == "" {
		for log := range w.ledgers {
			if !strings.HasSuffix(log, sync.OwnSuffix) && (w.only == "" || w.only == log) {
				jobs = append(jobs, map[string]string{"id": log})
			}
		}
	}
	by := w.session.Author
	return toAnswer(map[string]any{"role": by.Role, "name": by.Name, "link": by.Link, "closed": w.session.Closed, "jobs": jobs, "build": "test"})
}

func toAnswer(v any) device.Answer {
	text, err := json.Marshal(v)
	if err != nil {
		return device.Answer{Status: 500}
	}
	return device.Answer{Status: 200, Text: string(text)}
}

// tab is one page with its core.
type tab struct {
	*world
	disk     *handle
	wire     *wire
	inbox    chan device.Message
	drawings chan device.Drawing
	number   int
	mates    *[]*tab // tabs of the same phone

	ringsMu gosync.Mutex
	live    bool // time passes: pauses end at once
	rings   []func()
	paused  int // how often a pause was asked for

	slow    atomic.Bool  // every look at the clock takes a second, so that work pauses wherever it may
	slices  atomic.Int64 // pauses of work so far
	stops   atomic.Bool  // work stops in every pause, says so, and waits to be told to go on
	stopped chan struct{}
	goOn    chan struct{}
}

func (b *tab) now() int64 {
	if b.slow.Load() {
		return b.clock.Add(1000)
	}
	return b.clock.Load()
}

func (b *tab) pause() {
	b.slices.Add(1)
	if !b.stops.Load() {
		runtime.Gosched()
		return
	}
	select {
	case b.stopped <- struct{}{}:
	case <-b.ctx.Done():
		return
	}
	select {
	case <-b.goOn:
	case <-b.ctx.Done():
	}
}

// working waits for work to be in a pause, once it had so many more, and keeps it there until it is told to go on.
func (b *tab) working(slices int) (goOn func()) {
	b.t.Helper()
	b.stops.Store(true)
	for i := 0; ; i++ {
		select {
		case <-b.stopped:
		case <-b.ctx.Done():
			require.FailNow(b.t, "nothing is being worked out")
		}
		if i == slices {
			return func() {
				b.stops.Store(false)
				b.goOn <- struct{}{}
			}
		}
		b.goOn <- struct{}{}
	}
}

// phone is a new phone's first tab.
func (w *world) phone(role job.Role, name string) *tab {
	h := &handle{disk: &disk{rows: map[string]string{}}, left: -1}
	session := sync.Session{ID: "session-" + name, Author: job.Author{Role: role, Name: name, Link: "link-" + name}}
	return w.open(h, &wire{world: w, session: session}, &[]*tab{})
}

// firstVisit is a new phone's first tab, on a page that the server drew for the person; the server has no time for the
// exchange of one log.
func (w *world) firstVisit(role job.Role, name, refuses string) *tab {
	h := &handle{disk: &disk{rows: map[string]string{}}, left: -1}
	session := sync.Session{ID: "session-" + name, Author: job.Author{Role: role, Name: name, Link: "link-" + name}}
	return w.open(h, &wire{world: w, session: session, role: string(role), refuses: refuses}, &[]*tab{})
}

// again opens another tab on the same phone, or the same one after a kill.
func (b *tab) again() *tab {
	return b.open(&handle{disk: b.disk.disk, left: -1}, b.wire, b.mates)
}

func (w *world) open(h *handle, wi *wire, mates *[]*tab) *tab {
	b := &tab{world: w, disk: h, wire: wi, mates: mates, inbox: make(chan device.Message, 4096), drawings: make(chan device.Drawing, 1<<16), stopped: make(chan struct{}), goOn: make(chan struct{})}
	w.mu.Lock()
	*mates = append(*mates, b)
	w.mu.Unlock()
	core, err := device.Open(device.Options{Build: "test", Role: wi.role, Disk: h, Wire: wi, Page: b, Now: b.now, Zone: zoneOf, Home: "America/New_York",
		NewID: w.newID, Jitter: func() float64 { return 0.5 }, Later: b.later, Go: func(work func()) { go work() }, Pause: b.pause})
	require.NoError(w.t, err)
	done := make(chan struct{})
	stop := make(chan device.Message)
	go func() { // so that a closed tab can still be told things
		defer close(stop)
		for {
			select {
			case m, open := <-b.inbox:
				if !open {
					return
				}
				stop <- m
			case <-w.ctx.Done():
				return
			}
		}
	}()
	go func() {
		defer close(done)
		core.Run(stop)
	}()
	w.t.Cleanup(func() {
		w.mu.Lock()
		close(b.inbox)
		*mates = nil
		w.mu.Unlock()
		<-done
	})
	return b
}

func (b *tab) Draw(d device.Drawing) { b.drawings <- d }

func (b *tab) TellOthers() {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, mate := range *b.mates {
		if mate != b {
			mate.inbox <- device.Message{Type: "others"}
		}
	}
}

func (b *tab) Persist() (bool, int64) { return true, 1000 }

func (b *tab) later(ms int64, ring func()) {
	pass := func() {
		b.clock.Add(ms)
		ring()
	}
	b.ringsMu.Lock()
	defer b.ringsMu.Unlock()
	b.paused++
	if b.live {
		pass()
		return
	}
	b.rings = append(b.rings, pass)
}

// pauses is how many pauses of this tab have not ended.
func (b *tab) pauses() int {
	b.ringsMu.Lock()
	defer b.ringsMu.Unlock()
	return len(b.rings)
}

// passTime lets the pauses of this tab end, those to come too, or stops that.
func (b *tab) passTime(live bool) {
	b.ringsMu.Lock()
	defer b.ringsMu.Unlock()
	b.live = live
	if !live {
		return
	}
	for _, ring := range b.rings {
		ring()
	}
	b.rings = nil
}

// await waits for a drawing that fits.
func (b *tab) await(what string, fits func(device.Drawing) bool) device.Drawing {
	b.t.Helper()
	for {
		select {
		case d := <-b.drawings:
			if fits(d) {
				return d
			}
		case <-b.ctx.Done():
			require.FailNow(b.t, "waited in vain", what)
		}
	}
}

func (b *tab) ask(m device.Message) device.Drawing {
	b.t.Helper()
	b.number++
	m.Number = b.number
	b.inbox <- m
	return b.await(m.Type+" "+m.Path, func(d device.Drawing) bool { return d.Number == m.Number })
}

func (b *tab) get(path string) device.Drawing {
	b.t.Helper()
	return b.ask(device.Message{Type: "get", Path: path})
}

func (b *tab) say(kind string) { b.inbox <- device.Message{Type: kind} }

// enter looks at a page until the phone may answer for it.
func (b *tab) enter(path string) device.Drawing {
	b.t.Helper()
	if d := b.get(path); d.Type == "drawn" {
		return d
	}
	return b.await("to be let in to "+path, func(d device.Drawing) bool { return d.Type == "drawn" && d.Path == path })
}

// sent waits until nothing waits any more. A page of the phone must be on the screen.
func (b *tab) sent() device.Drawing {
	b.t.Helper()
	b.passTime(true)
	defer b.passTime(false)
	return b.await("everything to be sent", func(d device.Drawing) bool { return d.Number == 0 && d.Type == "drawn" && d.Waiting == 0 })
}

func (b *tab) post(id, path string, pairs ...string) device.Drawing {
	b.t.Helper()
	m := device.Message{Type: "post", Path: path, ID: id}
	for i := 0; i+1 < len(pairs); i += 2 {
		m.Form = append(m.Form, [2]string{pairs[i], pairs[i+1]})
	}
	return b.ask(m)
}

// newJob types the job and gives its address.
func (b *tab) newJob(postID string) device.Drawing {
	b.t.Helper()
	return b.post(postID, "/new", "title", "Reading room reopening", "date", "2027-05-08", "in", "2027-05-08T08:30", "doors", "2027-05-08T11:00",
		"piece.garland", "10", "colours", "coral", "colours", "ink-blue", "crew", "2")
}

func (b *tab) tick(postID, at, entity string) device.Drawing {
	b.t.Helper()
	return b.post(postID, at+"/do", "act", "tick", "e", entity, "back", at+"/cards")
}

// linkEnds has the owner take the phone's link back just now, with signal again, and waits until the job has gone from it.
func (b *tab) linkEnds(id string) {
	b.t.Helper()
	b.wire.set(func(x *wire) {
		x.offline = false
		x.session.Closed, x.session.ClosedAt = sync.Revoked, x.clock.Load()-1
	})
	b.say("wake")
	for b.get("/jobs/"+id).Type != "unknown" {
		require.NoError(b.t, b.ctx.Err())
		b.say("wake")     // an exchange from before, without signal, may have failed after the first
		runtime.Gosched() // there may be one thread only
	}
}
