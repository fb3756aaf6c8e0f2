package device_test

import (
	"runtime"
	gosync "sync"
	"sync/atomic"
	"time"

	"garlandry/app/sync"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/require"
)

// tab is one page and its core.
type tab struct {
	*world
	disk     *handle
	wire     *wire
	inbox    chan device.Message
	drawings chan device.Drawing
	number   int
	mates    *[]*tab      // tabs of the same phone
	passedOn atomic.Int64 // number of the last message that waits for the core or was received

	ringsMu gosync.Mutex
	live    bool // pauses end at once
	rings   []func()
	paused  int // number of pauses requested

	stoppedOver atomic.Int64 // jobs over which this tab's core stopped

	slow    atomic.Bool  // every clock reading advances a second, so that work pauses as often as possible
	slices  atomic.Int64 // pauses of work so far
	stops   atomic.Bool  // work stops in every pause, reports it, and waits for a signal to go on
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

// working waits until work has paused so many more times, and holds it there until goOn is called.
func (b *tab) working(slices int) (goOn func()) {
	b.t.Helper()
	b.stops.Store(true)
	for i := 0; ; i++ {
		select {
		case <-b.stopped:
		case <-b.ctx.Done():
			require.FailNow(b.t, "nothing is being computed")
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

// again opens another tab on the same phone. After a kill it reopens the phone.
func (b *tab) again() *tab {
	return b.open(&handle{disk: b.disk.disk, left: -1}, b.wire, b.mates)
}

func (w *world) open(h *handle, wi *wire, mates *[]*tab) *tab {
	b := &tab{world: w, disk: h, wire: wi, mates: mates, inbox: make(chan device.Message, 4096),
		drawings: make(chan device.Drawing, 1<<16), stopped: make(chan struct{}), goOn: make(chan struct{})}
	w.mu.Lock()
	*mates = append(*mates, b)
	w.mu.Unlock()
	core, err := device.Open(
		device.Options{Build: "test", Role: wi.role, Disk: h, Wire: b, Page: b, Now: b.now,
			Zone: zoneOf, Home: "America/New_York", NewID: w.newID, Jitter: func() float64 { return 0.5 },
			Later: b.later, Go: func(work func()) { go work() }, Pause: b.pause, SetAside: w.spoilt.setAside,
			Working: w.spoilt.working, Stopped: func(id, why string) { b.stoppedOver.Add(1); w.spoilt.stopped(id, why) }},
	)
	require.NoError(w.t, err)
	done := make(chan struct{})
	stop := make(chan device.Message, 16)
	go func() { // drains the inbox of a closed tab
		defer close(stop)
		for {
			select {
			case m, open := <-b.inbox:
				if !open {
					return
				}
				stop <- m
				if m.Number > 0 {
					b.passedOn.Store(int64(m.Number))
				}
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

// Fetch sends a request to the server, unless the tab was killed.
func (b *tab) Fetch(method, path, body string, limit time.Duration) device.Answer {
	if b.disk.dead() {
		return device.Answer{}
	}
	return b.wire.Fetch(method, path, body, limit)
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

// pauses returns how many pauses of this tab have not ended.
func (b *tab) pauses() int {
	b.ringsMu.Lock()
	defer b.ringsMu.Unlock()
	return len(b.rings)
}

// passTime sets whether the pauses of this tab, current and future, end at once.
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
			require.FailNow(b.t, "timed out", what)
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

// enter requests a page until the phone's core draws it.
func (b *tab) enter(path string) device.Drawing {
	b.t.Helper()
	if d := b.get(path); d.Type == "drawn" {
		return d
	}
	return b.await("access to "+path, func(d device.Drawing) bool { return d.Type == "drawn" && d.Path == path })
}

// sent waits until nothing waits any more. A page that the core draws must be on the screen.
func (b *tab) sent() device.Drawing {
	b.t.Helper()
	b.passTime(true)
	defer b.passTime(false)
	b.say("tick") // the drawing may have been read already
	return b.await("everything to be sent",
		func(d device.Drawing) bool { return d.Number == 0 && d.Type == "drawn" && d.Waiting == 0 })
}

func (b *tab) post(id, path string, pairs ...string) device.Drawing {
	b.t.Helper()
	m := device.Message{Type: "post", Path: path, ID: id}
	for i := 0; i+1 < len(pairs); i += 2 {
		m.Form = append(m.Form, [2]string{pairs[i], pairs[i+1]})
	}
	return b.ask(m)
}

// newJob creates a job and returns its page.
func (b *tab) newJob(postID string) device.Drawing {
	b.t.Helper()
	return b.post(postID, "/new", "title", "Reading room reopening", "date", "2027-05-08", "in", "2027-05-08T08:30",
		"doors", "2027-05-08T11:00", "piece.garland", "10", "colours", "coral", "colours", "ink-blue", "crew", "2")
}

func (b *tab) tick(postID, at, entity string) device.Drawing {
	b.t.Helper()
	return b.post(postID, at+"/do", "act", "tick", "e", entity, "back", at+"/cards")
}

// linkEnds has the owner revoke the phone's link, restores the signal, and waits until the job has left the phone.
func (b *tab) linkEnds(id string) {
	b.t.Helper()
	b.wire.set(func(x *wire) {
		x.offline = false
		x.session.Closed, x.session.ClosedAt = sync.Revoked, x.clock.Load()-1
	})
	b.say("wake")
	for b.get("/jobs/"+id).Type != "unknown" {
		require.NoError(b.t, b.ctx.Err())
		b.say("wake")     // an earlier request may have failed after the first wake
		runtime.Gosched() // there may be one thread only
	}
}
