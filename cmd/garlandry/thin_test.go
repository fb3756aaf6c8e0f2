package main

import (
	"io"
	"net"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"garlandry/pwa/shell"
	"garlandry/static"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// thinLine is a slow mobile line: all connections through it share its bits, and each packet is late. It sits below
// HTTP, so that pages, workers and the service worker share it as on a phone.
type thinLine struct {
	target   string
	bytesAMs float64
	late     time.Duration // each way

	down atomic.Int64 // bytes that came to the phone

	mu   sync.Mutex
	free time.Time // when the line has sent all that waits
}

// thinServer is a server as a phone on a thin line sees it.
type thinServer struct {
	*running
	line *thinLine
}

// newThinLine puts a line of 400 kbit/s and 400 ms in front of a server and returns the server's address there.
func newThinLine(t *testing.T, server *running) thinServer {
	t.Helper()
	l := &thinLine{target: server.host(), bytesAMs: 50, late: 200 * time.Millisecond}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	t.Cleanup(func() { _ = listener.Close() })
	go func() {
		for {
			from, err := listener.Accept()
			if err != nil {
				return // the test has ended
			}
			go l.connect(from)
		}
	}()
	via := *server
	via.address = "http://" + listener.Addr().String()
	via.link = strings.Replace(server.link, server.address, via.address, 1)
	return thinServer{&via, l}
}

func (l *thinLine) connect(from net.Conn) {
	time.Sleep(2 * l.late) // the handshake
	to, err := net.Dial("tcp", l.target)
	if err != nil {
		_ = from.Close()
		return
	}
	go l.carry(from, to, false)
	l.carry(to, from, true)
}

// packet is a piece of a stream and when it has crossed the line.
type packet struct {
	bytes []byte
	at    time.Time
}

// carry copies one direction of a connection. Only the way down to the phone is short of bits.
func (l *thinLine) carry(from, to net.Conn, down bool) {
	defer func() { _, _ = from.Close(), to.Close() }()
	under := make(chan packet, 32) // as much as a line holds
	go func() {
		defer close(under)
		for {
			piece := make([]byte, 1400)
			n, err := from.Read(piece)
			if n > 0 {
				under <- packet{piece[:n], l.send(n, down)}
			}
			if err != nil {
				return
			}
		}
	}()
	for p := range under {
		time.Sleep(time.Until(p.at))
		if _, err := to.Write(p.bytes); err != nil {
			_ = from.Close()
			_, _ = io.Copy(io.Discard, from)
			for range under { // until the reader has seen it
			}
			return
		}
	}
}

// send waits until the line takes some bytes, and returns when they arrive.
func (l *thinLine) send(n int, down bool) time.Time {
	if !down {
		return time.Now().Add(l.late)
	}
	l.down.Add(int64(n))
	l.mu.Lock()
	if now := time.Now(); l.free.Before(now) {
		l.free = now
	}
	l.free = l.free.Add(time.Duration(float64(n) / l.bytesAMs * float64(time.Millisecond)))
	at := l.free
	l.mu.Unlock()
	time.Sleep(time.Until(at))
	return at.Add(l.late)
}

// coreBytes returns how large the core is on the line.
func coreBytes(t *testing.T) int64 {
	t.Helper()
	built, err := shell.Load(static.Files)
	require.NoError(t, err)
	for _, a := range built.Assets {
		if a.URL == built.Core {
			return int64(a.Sent())
		}
	}
	t.Fatal("the build has no core")
	return 0
}

// mayCome waits up to 30 s for an expression to be true.
func (p *phone) mayCome(expression string) {
	p.t.Helper()
	p.promised(`new Promise((done) => { const began = performance.now(); const look = setInterval(() => {
		if (!(` + expression + `) && performance.now() - began < 30000) return;
		clearInterval(look); done('') }, 100) })`)
}

// TestBrowserFirstTickOnAThinLine checks that a helper's first tick is confirmed within 10 s of opening the link, on a
// line on which the core takes 40 s to come.
func TestBrowserFirstTickOnAThinLine(t *testing.T) {
	chromium(t) // alone: beside other browsers the seconds would be those of this machine
	server := startServer(t, t.TempDir(), "", true)
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	thin := newThinLine(t, server)
	link := strings.Replace(freshLink(t, owner, server.address, id, "Ines", "helper"), server.address, thin.address, 1)
	helper := newPhone(t, t.TempDir())

	began := time.Now()
	helper.join(link, "Ines")
	helper.until(`location.pathname.endsWith('/next') && document.querySelector('#page form button')`)
	came := time.Since(began)
	before := records(t, owner, server.address, id)
	helper.tap(`#page form:has([name=act]) button`)
	// A tap before the scripts are there is one of the browser's own, and the page that follows confirms it.
	helper.until(`document.documentElement.dataset.answered === 'yes' || document.querySelector('#flash > *')`)
	took := time.Since(began)
	t.Logf("the page came after %v, the tick was confirmed after %v", came, took)
	assert.Less(t, took, 10*time.Second)
	assert.Equal(t, "undefined", helper.text(`document.documentElement.dataset.ready`),
		"the core must not have been there")
	assert.Greater(t, len(records(t, owner, server.address, id)), len(before), "the server has the tick")
	after := records(t, owner, server.address, id)
	for range 3 { // a core of 2 MB takes 40 s on this line, longer than one wait
		helper.mayCome(`document.documentElement.dataset.waiting === '0'`)
	}
	helper.ready()
	t.Logf("all was there after %v and %d bytes", time.Since(began), thin.line.down.Load())
	assert.Less(t, thin.line.down.Load(), coreBytes(t)*3/2, "the core must come over the line once")
	assert.Equal(t, after, records(t, owner, server.address, id), "the core must not send it again")
}
