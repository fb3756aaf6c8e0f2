package store_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// closedPhone is a helper's phone without storage.
type closedPhone struct {
	*phone.Phone
	b       *bench
	session store.Session
	log     string
}

func newClosedPhone(t *testing.T, b *bench, session store.Session, log string) *closedPhone {
	t.Helper()
	ids := 0
	p, _, err := phone.Open(
		nil,
		phone.Options{Now: func() int64 { return b.now }, Jitter: func() float64 { return 0 },
			NewID: func() string { ids++; return fmt.Sprintf("phone%06d", ids) }},
	)
	require.NoError(t, err)
	_, err = p.Track(log)
	require.NoError(t, err)
	_, err = p.Give(log, nil)
	require.NoError(t, err)
	return &closedPhone{p, b, session, log}
}

func (p *closedPhone) exchange(t *testing.T) {
	t.Helper()
	for n := 0; n == 0 || p.Behind(p.log); n++ {
		require.Less(t, n, 20, "the exchange never ends")
		if p.MustLoad(p.log) { // it has no rows to load
			_, err := p.Give(p.log, nil)
			require.NoError(t, err)
		}
		req, due := p.Request(p.log, p.b.now)
		if !due {
			return
		}
		resp, err := p.b.Sync(p.b.ctx, p.session, p.log, req)
		require.NoError(t, err)
		_, err = p.Receive(p.log, req, resp, p.b.now)
		require.NoError(t, err)
	}
}

// checkIn asks the server what it has and sends again what it lacks.
func (p *closedPhone) checkIn(t *testing.T) {
	t.Helper()
	handed, err := p.b.Handed(p.session)
	require.NoError(t, err)
	require.Len(t, handed, 1)
	_, err = p.SendAgain(handed[0], sync.Revoked)
	require.NoError(t, err)
	p.exchange(t)
}

// After a restore a phone with a closed link sends its operations again, even if the journal is lost with the disk.
func TestQuarantineComesBackAfterARestore(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	phone := newClosedPhone(t, b, bea, id)
	backup := filepath.Join(t.TempDir(), "backup")
	require.NoError(t, b.Backup(b.ctx, backup))
	held := func() int {
		waiting, err := b.Quarantine(id)
		require.NoError(t, err)
		return len(waiting)
	}
	for n := range 3 {
		_, _, err := phone.Write(id, job.Put(fmt.Sprintf("card/c%d", n), "done", true))
		require.NoError(t, err)
	}
	phone.exchange(t)
	require.Equal(t, 3, held())
	require.NoError(t, b.Close())
	lost, err := filepath.Glob(filepath.Join(b.dir, "ops-*.ndjson"))
	require.NoError(t, err)
	require.NotEmpty(t, lost)
	for _, name := range append(lost, filepath.Join(b.dir, store.DatabaseName)) {
		require.NoError(t, os.Remove(name))
	}
	_, err = store.Restore(context.Background(), backup, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	require.Zero(t, held(), "as it was when the backup was made")
	phone.checkIn(t)
	assert.Equal(t, 3, held())
	phone.checkIn(t)
	assert.Equal(t, 3, held(), "each once")
	waiting, err := b.Quarantine(id)
	require.NoError(t, err)
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, []string{waiting[0].Op.ID}))
	require.NoError(t, b.IgnoreQuarantined(b.ctx, owner, id, []string{waiting[1].Op.ID}))
	phone.checkIn(t)
	assert.Equal(t, 1, held(), "decided operations are not held again")
}

// Handed names only a closed session's own job, and for an owner device only logs to which it has sent something.
func TestHandedNamesOwnLogsOnly(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id, other := b.job(t, owner), b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	handed, err := b.Handed(bea)
	require.NoError(t, err)
	require.Len(t, handed, 1)
	assert.Equal(t, id, handed[0].Log)
	_, ended := b.owner(t)
	require.NoError(t, b.EndDevice(b.ctx, owner, ended.ID))
	handed, err = b.Handed(ended)
	require.NoError(t, err)
	assert.Empty(t, handed)
	op := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Set,
		Entity: "own/contact", Field: "name", Value: []byte(`"Town"`), Wall: b.now}
	b.send(t, ended, other+sync.OwnSuffix, op)
	handed, err = b.Handed(ended)
	require.NoError(t, err)
	require.Len(t, handed, 1)
	assert.Equal(t, other+sync.OwnSuffix, handed[0].Log)
	assert.Equal(t, 1, handed[0].Held)
}
