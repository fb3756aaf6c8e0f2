package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// line simulates a bad network: a proxy that can hang, refuse requests, and drop or truncate answers.
type line struct {
	*running
	proxy *httputil.ReverseProxy
	ended chan struct{} // closed when the test ends, to release hanging requests

	mu    sync.Mutex
	fault fault
	seen  int // requests that the fault has hit
}

// fault selects the requests that fail and how they fail.
type fault struct {
	hits  func(*http.Request) bool
	how   string // "hang", "drop", "swallow", "stall", "cut", "front", or a status
	bytes int    // bytes of the body that pass before a stall or a cut
	front string // text put in front of the body
	once  bool
}

// newLine puts a line in front of a server and points the server's address and link to it.
func newLine(t *testing.T, server *running) *line {
	t.Helper()
	target, err := url.Parse(server.address)
	require.NoError(t, err)
	l := &line{proxy: httputil.NewSingleHostReverseProxy(target), ended: make(chan struct{})}
	l.proxy.FlushInterval = -1
	l.proxy.ErrorLog = nil
	front := httptest.NewServer(l)
	t.Cleanup(func() {
		close(l.ended)
		front.CloseClientConnections()
		front.Close()
	})
	via := *server
	via.address, via.link = front.URL, strings.Replace(server.link, server.address, front.URL, 1)
	l.running = &via
	return l
}

func (l *line) set(f fault) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.fault, l.seen = f, 0
}

func (l *line) good() { l.set(fault{}) }

// off drops every request.
func (l *line) off() { l.set(fault{hits: func(*http.Request) bool { return true }, how: "drop"}) }

// met returns how many requests the fault has hit.
func (l *line) met() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.seen
}

func (l *line) meets(r *http.Request) (fault, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	f := l.fault
	if f.hits == nil || !f.hits(r) {
		return f, false
	}
	l.seen++
	if f.once {
		l.fault = fault{}
	}
	return f, true
}

func (l *line) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	f, hit := l.meets(r)
	if !hit {
		l.proxy.ServeHTTP(w, r)
		return
	}
	switch f.how {
	case "hang":
		l.wait(r)
	case "drop":
		panic(http.ErrAbortHandler)
	case "swallow":
		l.proxy.ServeHTTP(httptest.NewRecorder(), r)
		panic(http.ErrAbortHandler)
	case "stall", "cut", "front":
		l.spoil(w, r, f)
	case "500":
		http.Error(w, "broken", http.StatusInternalServerError)
	case "503":
		http.Error(w, "busy", http.StatusServiceUnavailable)
	case "portal": // the sign-in page of a public network
		w.Header().Set("Content-Type", "text/html")
		_, _ = io.WriteString(w, "<!doctype html><title>Sign in</title><h1>Sign in to this network</h1>")
	}
}

// spoil passes on part of an answer.
func (l *line) spoil(w http.ResponseWriter, r *http.Request, f fault) {
	r.Header.Del("Accept-Encoding")
	whole := httptest.NewRecorder()
	l.proxy.ServeHTTP(whole, r)
	for name, values := range whole.Header() {
		if name != "Content-Length" {
			w.Header()[name] = values
		}
	}
	w.WriteHeader(whole.Code)
	body := f.front + whole.Body.String()
	if f.how != "front" {
		body = body[:min(f.bytes, len(body))]
	}
	_, _ = io.WriteString(w, body)
	if flusher, can := w.(http.Flusher); can {
		flusher.Flush()
	}
	switch f.how {
	case "stall":
		l.wait(r)
	case "cut":
		panic(http.ErrAbortHandler)
	}
}

// wait holds a request until the browser gives up or the test ends.
func (l *line) wait(r *http.Request) {
	select {
	case <-r.Context().Done():
	case <-l.ended:
	}
	panic(http.ErrAbortHandler)
}

// posts matches form posts, but not API requests.
func posts(r *http.Request) bool {
	return r.Method == http.MethodPost && strings.HasSuffix(r.URL.Path, "/do")
}

// coreFile matches requests for the core.
func coreFile(r *http.Request) bool { return strings.HasSuffix(r.URL.Path, ".wasm") }

// both matches requests that match one or the other.
func both(one, other func(*http.Request) bool) func(*http.Request) bool {
	return func(r *http.Request) bool { return one(r) || other(r) }
}

// ownerLink makes an owner link. Each link admits one device.
func (r *running) ownerLink(t *testing.T) string {
	t.Helper()
	code, out, complaint := cli("invite", "--data", r.dir, "--address", r.address)
	require.Equal(t, 0, code, complaint)
	link := ownerLink.FindString(out)
	require.NotEmpty(t, link, out)
	return link
}

// shots takes screenshots in the light and the dark theme.
func (p *phone) shots(name string) {
	p.t.Helper()
	for _, look := range []string{"dark", "light"} {
		p.text(`self.setLook('` + look + `')`)
		p.shot(name + "-" + look)
	}
	p.text(`self.setLook('')`)
}
