package device_test

import (
	"context"
	"fmt"
	gosync "sync"
	"sync/atomic"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/require"
)

// patience bounds every wait of these tests.
const patience = 30 * time.Second

// world is a server with a clock. Phones join it.
type world struct {
	t     testing.TB
	ctx   context.Context
	clock atomic.Int64
	ids   atomic.Int64

	spoilt spoilt // jobs over which cores stop

	mu      gosync.Mutex
	ledgers map[string]*memory.Ledger
}

func newWorld(t testing.TB) *world {
	ctx, stop := context.WithTimeout(context.Background(), patience)
	t.Cleanup(stop)
	w := &world{t: t, spoilt: spoilt{t: t}, ctx: ctx, ledgers: map[string]*memory.Ledger{}}
	w.clock.Store(1_800_000_000_000)
	return w
}

func (w *world) newID() string { return fmt.Sprintf("abcdefghijklmnopqrst%06d", w.ids.Add(1)) }

// records returns the server's records of a log.
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

// phone returns a new phone's first tab.
func (w *world) phone(role job.Role, name string) *tab {
	h := &handle{disk: &disk{rows: map[string]string{}}, left: -1}
	session := server.Session{ID: "session-" + name, Author: job.Author{Role: role, Name: name, Link: "link-" + name}}
	return w.open(h, &wire{world: w, session: session}, &[]*tab{})
}

// firstVisit returns a new phone's first tab, on a page that the server drew for the person. The server does not answer
// requests for the given log.
func (w *world) firstVisit(role job.Role, name, refuses string) *tab {
	h := &handle{disk: &disk{rows: map[string]string{}}, left: -1}
	session := server.Session{ID: "session-" + name, Author: job.Author{Role: role, Name: name, Link: "link-" + name}}
	return w.open(h, &wire{world: w, session: session, role: string(role), refuses: refuses}, &[]*tab{})
}
