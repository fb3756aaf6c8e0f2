package main

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// front is a proxy that counts phones' requests. Tests can switch it off to simulate a lost signal.
type front struct {
	*httptest.Server
	mu     sync.Mutex
	down   bool
	asked  map[string]int // API requests by path, without event streams
	busy   int            // answers of 429
	flying int
}

func newFront(t *testing.T, to string) *front {
	t.Helper()
	target, err := url.Parse(to)
	require.NoError(t, err)
	f := &front{asked: map[string]int{}}
	proxy := httputil.NewSingleHostReverseProxy(target)
	proxy.FlushInterval = -1
	proxy.ErrorHandler = func(http.ResponseWriter, *http.Request, error) {
		panic(http.ErrAbortHandler)
	} // drop the connection, as if there were no server
	proxy.ModifyResponse = func(r *http.Response) error {
		f.mu.Lock()
		defer f.mu.Unlock()
		if r.StatusCode == http.StatusTooManyRequests {
			f.busy++
		}
		return nil
	}
	f.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		counted := strings.HasPrefix(r.URL.Path, "/api/") && !strings.HasSuffix(r.URL.Path, "/events")
		f.mu.Lock()
		if f.down {
			f.mu.Unlock()
			panic(http.ErrAbortHandler)
		}
		if counted {
			f.asked[r.URL.Path]++
			f.flying++
		}
		f.mu.Unlock()
		if counted {
			defer func() {
				f.mu.Lock()
				f.flying--
				f.mu.Unlock()
			}()
		}
		proxy.ServeHTTP(w, r)
	}))
	t.Cleanup(f.Server.CloseClientConnections)
	t.Cleanup(f.Server.Close)
	return f
}

// signal switches the connection to the server on or off.
func (f *front) signal(there bool) {
	f.mu.Lock()
	f.down = !there
	f.mu.Unlock()
	if !there {
		f.CloseClientConnections()
	}
}

// count returns the requests since the last call: by path, in total, and how many were answered with 429.
func (f *front) count() (asked map[string]int, all, busy int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	asked, busy = f.asked, f.busy
	f.asked, f.busy = map[string]int{}, 0
	for _, n := range asked {
		all += n
	}
	return asked, all, busy
}

// heard reports whether the path was requested and every request has been answered.
func (f *front) heard(path string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.asked[path] > 0 && f.flying == 0
}

// hears waits until the path was requested since the last count and every request has been answered.
func (f *front) hears(t *testing.T, path string) {
	t.Helper()
	require.Eventually(t, func() bool { return f.heard(path) }, 30*time.Second, 20*time.Millisecond, path)
}

// pairs makes form values from alternating names and values.
func pairs(fields []string) url.Values {
	form := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		form.Add(fields[i], fields[i+1])
	}
	return form
}

// getJSON requests an address and decodes the answer.
func getJSON(t *testing.T, c *http.Client, address string, into any) {
	t.Helper()
	answer, err := c.Get(address)
	require.NoError(t, err)
	defer answer.Body.Close()
	require.Equal(t, http.StatusOK, answer.StatusCode)
	require.NoError(t, json.NewDecoder(answer.Body).Decode(into))
}
