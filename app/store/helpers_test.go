package store_test

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	start = int64(1_800_000_000_000)
	hour  = int64(3_600_000)
	day   = 24 * hour
)

// bench is an open store with a clock that tests move.
type bench struct {
	*store.Store
	dir string
	now int64
	ctx context.Context
}

// openStore opens a store in a new directory. At the end of the test it checks the data as a backup does.
func openStore(t testing.TB) *bench {
	t.Helper()
	b := &bench{dir: t.TempDir(), now: start, ctx: context.Background()}
	b.reopen(t)
	t.Cleanup(func() {
		assert.NoError(t, b.Close())
		assert.NoError(t, store.Verify(b.dir), "pages, hashes, seals")
	})
	return b
}

func (b *bench) options() store.Options { return store.Options{Now: func() int64 { return b.now }} }

func (b *bench) reopen(t testing.TB) {
	t.Helper()
	var err error
	b.Store, err = store.Open(b.dir, b.options())
	require.NoError(t, err)
}

// owner adds a device of the owner.
func (b *bench) owner(t testing.TB) (string, store.Session) {
	t.Helper()
	invite, err := b.CreateOwnerInvite(b.ctx, b.System("test"))
	require.NoError(t, err)
	token, session, err := b.RedeemInvite(b.ctx, invite, "Owner's phone")
	require.NoError(t, err)
	return token, session
}

// job makes the reading room's job.
func (b *bench) job(t testing.TB, owner store.Session) string {
	t.Helper()
	id, err := b.CreateJob(b.ctx, owner, "", []job.Change{
		job.Put("brief", "title", "Reading room reopening"), job.Put("brief", "date", "2027-05-08"),
		job.Put("own/contact", "name", "Town library"),
		job.Put("piece/door", "name", "Door garland"), job.Put("piece/door", "kind", "garland")})
	require.NoError(t, err)
	return id
}

// helper adds a helper by a link that ends in ten days.
func (b *bench) helper(t testing.TB, owner store.Session, jobID, name string, role job.Role) (store.Link, string,
	store.Session) {
	t.Helper()
	link, secret, err := b.CreateLink(b.ctx, owner, jobID, store.LinkWish{Name: name, Role: role, Ends: b.now + 10*day})
	require.NoError(t, err)
	token, session, err := b.RedeemLink(b.ctx, secret, name+"'s phone")
	require.NoError(t, err)
	return link, token, session
}

// send sends operations of one device at the present time and returns the answer.
func (b *bench) send(t testing.TB, session store.Session, log string, ops ...job.Op) sync.Response {
	t.Helper()
	resp, err := b.Sync(b.ctx, session, log,
		sync.Request{V: sync.WireVersion, Device: ops[0].Device, Now: b.now, Ops: ops})
	require.NoError(t, err)
	require.Len(t, resp.Acks, len(ops))
	return resp
}

// addition returns operation n of the device "phone", which adds to the clusters of the door garland.
func addition(n uint64, delta, wall int64) job.Op {
	return job.Op{ID: fmt.Sprint("operation", n), Device: "phone", Number: n, Version: 1, Kind: job.Add,
		Entity: "card/make/door", Delta: delta, Wall: wall}
}

func (b *bench) read(t testing.TB, jobID string) job.Job {
	t.Helper()
	shared, private, err := b.State(jobID)
	require.NoError(t, err)
	return job.Read(jobID, shared, private)
}

// sameState compares two states by their JSON.
func sameState(t testing.TB, want, got *job.State) {
	t.Helper()
	a, err := json.Marshal(want)
	require.NoError(t, err)
	b, err := json.Marshal(got)
	require.NoError(t, err)
	require.Equal(t, string(a), string(b))
}
