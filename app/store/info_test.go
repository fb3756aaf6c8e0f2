package store_test

import (
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// listedAsFolded checks that the job list agrees with every job's fold, and that listing folds nothing.
func listedAsFolded(t *testing.T, b *bench, when string) {
	t.Helper()
	b.ForgetStates()
	jobs, err := b.Jobs(b.System("test"))
	require.NoError(t, err)
	require.NotEmpty(t, jobs)
	assert.Zero(t, b.Folded(), "%s: listing folds nothing", when)
	for _, info := range jobs {
		shared, _, err := b.State(info.ID)
		require.NoError(t, err)
		brief := job.ReadBrief(shared)
		assert.Equal(t, []any{brief.Title, brief.Date, brief.Doors, brief.Archived, shared.Last},
			[]any{info.Title, info.Date, info.Doors, info.Archived, info.Changed}, "%s: %s", when, info.ID)
		for log, end := range map[string]store.LogEnd{info.ID: info.Shared, info.ID + sync.OwnSuffix: info.Own} {
			require.NoError(t, b.Look(log, func(l server.Ledger) error {
				head, err := l.Head()
				assert.Equal(t, store.LogEnd{Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash}, end, "%s: %s", when, log)
				return err
			}))
		}
	}
}

func TestJobListMatchesTheFold(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	for range 20 {
		b.job(t, owner)
	}
	id := b.job(t, owner)
	listedAsFolded(t, b, "new")
	// The second phone sends an earlier title after the first: the later title wins.
	send := func(device string, n uint64, at int64, field, value string) {
		b.now += 1000
		op := job.Op{ID: fmt.Sprintf("%s-operation%d", device, n), Device: device, Number: n, Version: 1,
			Kind: job.Set, Entity: "brief", Field: field, Value: []byte(value), Wall: at}
		ack := b.send(t, owner, id, op).Acks[0]
		require.Equal(t, sync.OK, ack.Result, ack.Why)
	}
	b.now += hour
	send("phone1", 1, b.now-1000, "title", `"The later title"`)
	send("phone2", 1, b.now-hour/2, "title", `"The earlier title"`)
	send("phone2", 2, b.now, "away", `true`)
	send("phone1", 2, b.now, "doors", `"2027-05-08T18:30"`)
	jobs, err := b.Jobs(owner)
	require.NoError(t, err)
	found := 0
	for _, info := range jobs {
		if info.ID == id {
			found++
			assert.Equal(t, "The later title", info.Title)
			assert.True(t, info.Archived)
		}
	}
	assert.Equal(t, 1, found)
	listedAsFolded(t, b, "after syncs")

	b.DropNotes(t)
	require.NoError(t, b.Close())
	b.reopen(t) // as a database of an earlier build
	listedAsFolded(t, b, "made again")
	assert.True(t, b.HasNote(id), "and stored")
}

// Thirty days after a job was archived it closes to everyone but its owner. Work done before then counts whenever it
// arrives; later work waits for the owner. Restoring the job reopens it.
func TestThirtyDaysAfterAJobWasArchived(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, secret, err := b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Bea", Role: job.Helper, Ends: b.now + 200*day})
	require.NoError(t, err)
	token, bea, err := b.RedeemLink(b.ctx, secret, "Bea's phone")
	require.NoError(t, err)
	send := func(n uint64, at int64) sync.Response { return b.send(t, bea, id, addition(n, 1, at)) }
	session := func() store.Session {
		found, err := b.Session(token)
		require.NoError(t, err)
		return found
	}
	archive := func(archived bool) int64 {
		b.now += hour
		_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "away", archived)})
		require.NoError(t, err)
		return b.now
	}
	archive(true)
	archive(false)
	archived := archive(true)
	ends := archived + 30*day
	b.now = ends - 1
	assert.Empty(t, session().Closed, "until the last moment")
	assert.Equal(t, sync.OK, send(1, b.now).Acks[0].Result)
	b.now = ends + 5*day
	assert.Equal(t, sync.Ended, session().Closed)
	assert.Equal(t, ends, session().ClosedAt)
	late := send(2, ends-day)
	assert.Equal(t, sync.OK, late.Acks[0].Result, "done in time")
	assert.Equal(t, sync.Ended, late.Closed)
	assert.Empty(t, late.Recs)
	assert.Equal(t, sync.Quarantined, send(3, ends+day).Acks[0].Result, "done afterwards")
	held, err := b.Quarantine(id)
	require.NoError(t, err)
	require.Len(t, held, 1)
	assert.Equal(t, "operation3", held[0].Op.ID)
	_, _, err = b.RedeemLink(b.ctx, secret, "Another phone")
	assert.ErrorIs(t, err, store.ErrLinkEnded)
	_, _, err = b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Tomasz", Role: job.Helper, Ends: b.now + day})
	var field *job.FieldError
	require.ErrorAs(t, err, &field)
	assert.Contains(t, field.Message, "restore it first")
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("card/make/door", "note", "mine")})
	require.NoError(t, err, "not for the owner")
	listed, err := b.Late(id)
	require.NoError(t, err)
	assert.Len(t, listed, 2, "the two that count and came after the job was archived")

	archive(false)
	assert.Empty(t, session().Closed, "restored")
	assert.Equal(t, sync.OK, send(4, b.now).Acks[0].Result)
	b.now = start + 195*day
	archive(true)
	b.now += 40 * day
	assert.Equal(t, start+200*day, session().ClosedAt, "the link's own end, as it comes first")
}
