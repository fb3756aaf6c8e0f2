package store_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Expired install codes are deleted, and each session keeps only its newest codes.
func TestInstallCodesDoNotPileUp(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	_, other := b.owner(t)
	create := func(by store.Session) string {
		b.now++
		code, err := b.CreateInstallCode(b.ctx, by)
		require.NoError(t, err)
		return code
	}
	others, first, last := create(other), create(owner), ""
	for range 30 {
		last = create(owner)
	}
	assert.Equal(t, 21, b.Codes())
	_, _, err := b.RedeemInstallCode(b.ctx, first)
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	for _, code := range []string{last, others} {
		_, _, err = b.RedeemInstallCode(b.ctx, code)
		require.NoError(t, err)
	}
	b.now += 3 * day
	create(owner)
	assert.Equal(t, 1, b.Codes(), "when another is made")
	b.now += 3 * day
	require.NoError(t, b.Close())
	b.reopen(t)
	assert.Zero(t, b.Codes(), "when the data is opened")
}

// A device that was not used for 400 days is deleted.
func TestUnusedDevicesAreDeleted(t *testing.T) {
	b := openStore(t)
	token, _ := b.owner(t)
	seen, owner := b.owner(t)
	b.now += 399 * day
	_, err := b.Session(seen)
	require.NoError(t, err)
	b.now += day
	_, err = b.Session(token)
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, err = b.Session(seen)
	require.NoError(t, err)
	require.NoError(t, b.Close())
	b.reopen(t)
	devices, err := b.OwnerDevices()
	require.NoError(t, err)
	require.Len(t, devices, 1)
	assert.Equal(t, owner.ID, devices[0].ID)
	b.now += 400 * day
	b.owner(t)
	devices, err = b.OwnerDevices()
	require.NoError(t, err)
	assert.Len(t, devices, 1, "also when another is added")
}

// A full job refuses changes from forms and phones and says why.
func TestFullJob(t *testing.T) {
	for name, fill := range map[string]func(*server.Head){
		"operations": func(h *server.Head) { h.Count = server.MaxLogOps },
		"bytes":      func(h *server.Head) { h.Bytes = server.MaxLogBytes },
	} {
		t.Run(name, func(t *testing.T) {
			b := openStore(t)
			_, owner := b.owner(t)
			id := b.job(t, owner)
			var before server.Head
			set := func(alter func(*server.Head)) {
				require.NoError(t, b.Alter(id, func(l server.Ledger) error {
					head, err := l.Head()
					require.NoError(t, err)
					before = head
					alter(&head)
					return l.SetHead(head)
				}))
			}
			set(fill)
			original := before
			assert.Positive(t, original.Bytes, "it is counted")
			count := func(sign int64) { // the owner has a limit of its own
				require.NoError(t, b.Alter(id, func(l server.Ledger) error {
					return l.AddUse("total/owner", server.Use{Ops: sign * server.OwnerRoom.Ops, Bytes: sign * server.OwnerRoom.Bytes})
				}))
			}
			count(1)
			_, err := b.Write(b.ctx, owner, id, []job.Change{job.Count("card/make/door", 1)})
			assert.ErrorIs(t, err, store.ErrJobFull)
			assert.NotErrorIs(t, err, store.ErrForbidden)
			resp := b.send(t, owner, id, addition(1, 5, start))
			assert.Equal(t, sync.Ack{ID: "operation1", Result: sync.Denied, Why: sync.WhyFull}, resp.Acks[0])
			count(-1)
			set(func(h *server.Head) { *h = original })
			_, err = b.Write(b.ctx, owner, id, []job.Change{job.Count("card/make/door", 1)})
			require.NoError(t, err)
		})
	}
}
