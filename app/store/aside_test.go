package store_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sendOne sends one operation from a session and returns its acknowledgement.
func (b *bench) sendOne(t *testing.T, session store.Session, log string, op job.Op) sync.Ack {
	t.Helper()
	b.now += 1000
	op.Version, op.Wall = 1, b.now
	return b.send(t, session, log, op).Acks[0]
}

// suspects returns a job's suspects by operation id.
func (b *bench) suspects(t *testing.T, id string) map[string]store.Suspect {
	t.Helper()
	all, err := b.Suspects(id)
	require.NoError(t, err)
	byID := map[string]store.Suspect{}
	for _, s := range all {
		byID[s.Rec.ID] = s
	}
	return byID
}

func TestTheOwnerSetsAnOperationAside(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, lead := b.helper(t, owner, id, "Ines", job.Lead)
	wave := job.Op{ID: "operation1", Device: "ownerphone", Number: 1, Kind: "wave", Entity: "card/make/door",
		Value: []byte(`{"a":1}`)}
	assert.Equal(t, sync.Denied, b.sendOne(t, lead, id, wave).Result, "not from a helper")
	require.Equal(t, sync.OK, b.sendOne(t, owner, id, wave).Result)
	title := job.Op{ID: "operation2", Device: "ownerphone", Number: 2, Kind: job.Set, Entity: "brief",
		Field: "title", Value: []byte(`"Wrong"`)}
	require.Equal(t, sync.OK, b.sendOne(t, owner, id, title).Result)
	private := job.Op{ID: "operation3", Device: "ownerphone", Number: 3, Kind: job.Set, Entity: "own/contact",
		Field: "name", Value: []byte(`"Nobody"`)}
	require.Equal(t, sync.OK, b.sendOne(t, owner, id+sync.OwnSuffix, private).Result)
	suspects := func() map[string]store.Suspect { return b.suspects(t, id) }
	require.Len(t, suspects(), 1)
	assert.True(t, suspects()[wave.ID].Unknown)
	assert.False(t, suspects()[wave.ID].Aside)

	_, before, err := b.State(id)
	require.NoError(t, err)
	require.Equal(t, `"Nobody"`, string(before.Register("own/contact", "name").Value()))
	for _, op := range []string{wave.ID, title.ID, private.ID} {
		assert.ErrorIs(t, b.SetAside(b.ctx, lead, id, op, true, ""), store.ErrForbidden)
		require.NoError(t, b.SetAside(b.ctx, owner, id, op, true, "by a child"))
	}
	assert.ErrorIs(t, b.SetAside(b.ctx, owner, id, "operation9", true, ""), store.ErrNotFound)
	listedAsFolded(t, b, "set aside")
	for _, when := range []string{"from memory", "from disk"} {
		shared, own, err := b.State(id)
		require.NoError(t, err)
		assert.Empty(t, shared.Unknown, when)
		assert.Equal(t, `"Reading room reopening"`, string(shared.Register("brief", "title").Value()), when)
		assert.Equal(t, `"Town library"`, string(own.Register("own/contact", "name").Value()), when)
		found := suspects()
		require.Len(t, found, 3, when)
		for _, s := range found {
			assert.True(t, s.Aside, when)
			assert.Equal(t, []any{"by a child", "Owner's phone"}, []any{s.Why, s.By}, when)
			assert.Positive(t, s.At, when)
		}
		require.NoError(t, b.Close())
		b.reopen(t)
	}
	resp, err := b.Sync(b.ctx, owner, id, sync.Request{V: sync.WireVersion, Device: "another", Now: b.now})
	require.NoError(t, err)
	for _, r := range resp.Recs {
		if r.ID == title.ID || r.ID == wave.ID {
			assert.Equal(t, job.Emptied, r.Kind)
		}
	}
	require.NoError(t, b.SetAside(b.ctx, owner, id, title.ID, false, "it was right"))
	listedAsFolded(t, b, "restored")
	shared, _, err := b.State(id)
	require.NoError(t, err)
	assert.Equal(t, `"Wrong"`, string(shared.Register("brief", "title").Value()))
	assert.Equal(t, "it was right", suspects()[title.ID].Why)
}

// A device id belongs to one phone in every job, and a form that the server writes for a session never clashes.
func TestDeviceIDsBelongToOnePhone(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	one, two := b.job(t, owner), b.job(t, owner)
	_, token, helper := b.helper(t, owner, one, "Bea", job.Helper)
	_, _, lead := b.helper(t, owner, two, "Ines", job.Lead)
	op := func(n uint64) job.Op {
		return job.Op{ID: fmt.Sprintf("operation%d", n), Device: "beasphone", Number: n, Kind: job.Set,
			Entity: "card/make/door", Field: "done", Value: []byte("true")}
	}
	require.Equal(t, sync.OK, b.sendOne(t, helper, one, op(1)).Result)
	assert.Equal(t, sync.Fork, b.sendOne(t, lead, two, op(2)).Result, "in another job as well")
	assert.Equal(t, sync.Fork, b.sendOne(t, owner, one, op(3)).Result)
	code, err := b.CreateInstallCode(b.ctx, helper)
	require.NoError(t, err)
	_, installed, err := b.RedeemInstallCode(b.ctx, code)
	require.NoError(t, err)
	assert.Equal(t, sync.OK, b.sendOne(t, installed, one, op(4)).Result, "the installed app may share the storage")
	again, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.OK, b.sendOne(t, again, one, op(5)).Result)

	ops, err := b.Write(b.ctx, lead, two, []job.Change{job.Put("card/make/door", "done", true)})
	require.NoError(t, err)
	taken := ops[0].Device // visible in the job's records
	assert.Equal(t, sync.Fork, b.sendOne(t, owner, two,
		job.Op{ID: "operation7", Device: taken, Number: 99, Kind: job.Add, Entity: "card/make/door", Delta: 1}).Result)
	require.NoError(t, b.Unbind(taken)) // as in a database of an older build, which binds no ids
	require.Equal(t, sync.OK, b.sendOne(t, owner, two,
		job.Op{ID: "operation8", Device: taken, Number: 2, Kind: job.Add, Entity: "card/make/door", Delta: 1}).Result)
	ops, err = b.Write(b.ctx, lead, two, []job.Change{job.Put("card/make/door", "done", false)})
	require.NoError(t, err, "a form is not refused because its session's id is in use")
	assert.NotEqual(t, taken, ops[0].Device)
}

// A restore keeps the owner of a device id that first wrote after the backup.
func TestARestoreKeepsDeviceIDsWithTheirPhones(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, helper := b.helper(t, owner, id, "Bea", job.Helper)
	_, _, lead := b.helper(t, owner, id, "Ines", job.Lead)
	backup := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	op := func(n uint64) job.Op {
		return job.Op{ID: fmt.Sprintf("operation%d", n), Device: "beasphone", Number: n, Kind: job.Add,
			Entity: "card/make/door", Delta: 1}
	}
	require.Equal(t, sync.OK, b.sendOne(t, helper, id, op(1)).Result)
	require.NoError(t, b.Close())
	_, err := store.Restore(b.ctx, backup, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	assert.Equal(t, sync.Fork, b.sendOne(t, lead, id, op(2)).Result)
	assert.Equal(t, sync.OK, b.sendOne(t, helper, id, op(1)).Result)
}
