package store_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAFormWritesIntoBothLogs(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	j := b.read(t, id)
	assert.Equal(t, "Town library", j.Contact.Name)
	assert.Empty(t, j.State.Registers["own/contact"], "the contact is in the owner's log only")
	assert.Equal(t, "Owner's phone", j.State.Register("brief", "title").Readings[0].Author.Name)
}

func TestWriteIsAtomic(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, ines := b.helper(t, owner, id, "Ines", job.Lead)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	tick := job.Put("card/make/door", "done", true)
	for _, row := range []struct {
		name    string
		session store.Session
		bad     job.Change
		want    error
	}{
		{"a helper edits a piece", bea, job.Put("piece/door", "name", "Mine"), store.ErrForbidden},
		{"a lead edits the brief", ines, job.Put("brief", "title", "Mine"), store.ErrForbidden},
		{"a lead reads the contact", ines, job.Put("own/contact", "name", "Mine"), store.ErrForbidden},
		{"a length below zero", owner, job.Put("piece/door", "length_mm", -1), job.ErrInvalid},
	} {
		_, err := b.Write(b.ctx, row.session, id, []job.Change{tick, row.bad})
		assert.ErrorIs(t, err, row.want, row.name)
		var refused *store.Refused
		require.True(t, errors.As(err, &refused), row.name)
		assert.Equal(t, row.bad.Entity, refused.Change.Entity, row.name)
		assert.False(t, b.read(t, id).Done("card/make/door"), row.name)
	}
	_, err := b.Write(b.ctx, bea, id, []job.Change{tick})
	require.NoError(t, err)
	assert.True(t, b.read(t, id).Done("card/make/door"))
}

func TestLaterFormsWinOverEarlierOnes(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	for n := range 5 { // all at the same time
		_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("piece/door", "name", fmt.Sprint("Door ", n)),
			job.Put("piece/door", "name", fmt.Sprint("Door again ", n))})
		require.NoError(t, err)
		piece, _ := b.read(t, id).Piece("door")
		assert.Equal(t, fmt.Sprint("Door again ", n), piece.Name)
	}
	b.now -= day // the server's clock is set back
	_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("piece/door", "name", "Door at last")})
	require.NoError(t, err)
	piece, _ := b.read(t, id).Piece("door")
	assert.Equal(t, "Door at last", piece.Name)
}

func TestManyChangesInOneForm(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	var changes []job.Change
	for n := range 2*sync.MaxOps + 7 {
		changes = append(changes, job.Count(fmt.Sprintf("card/make/%d", n%9), 1))
	}
	id, err := b.CreateJob(b.ctx, owner, "", changes)
	require.NoError(t, err)
	total := 0
	j := b.read(t, id)
	for n := range 9 {
		total += j.Made(fmt.Sprintf("card/make/%d", n))
	}
	assert.Equal(t, len(changes), total)
}

func TestUnknownJobs(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	other := b.job(t, owner)
	_, err := b.Write(b.ctx, owner, "nothere", []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, _, err = b.State("nothere")
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, err = b.Write(b.ctx, bea, other, []job.Change{job.Put("card/x", "done", true)})
	assert.ErrorIs(t, err, store.ErrNotFound, "a helper of one job does not see another")
	_, err = b.CreateJob(b.ctx, bea, "", nil)
	assert.Error(t, err)
	_, err = b.CreateJob(b.ctx, owner, id, nil)
	assert.ErrorIs(t, err, store.ErrForbidden, "the id exists")
	for _, bad := range []string{"x", "../../etc", "a b c d", "waytoolong-waytoolong-waytoolong-waytoolong", "job~own"} {
		_, err = b.CreateJob(b.ctx, owner, bad, nil)
		assert.ErrorIs(t, err, sync.ErrRequest, bad)
	}
	cancelled, cancel := context.WithCancel(b.ctx)
	cancel()
	_, err = b.Write(cancelled, owner, id, []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, context.Canceled)
}

func TestJobList(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	first := b.job(t, owner)
	b.now += hour
	second := b.job(t, owner)
	_, err := b.Write(b.ctx, owner, second, []job.Change{job.Put("brief", "away", true)})
	require.NoError(t, err)
	_, _, bea := b.helper(t, owner, first, "Bea", job.Helper)
	all, err := b.Jobs(owner)
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.Equal(t, second, all[0].ID, "newest first")
	assert.True(t, all[0].Archived)
	assert.Equal(t, "Reading room reopening", all[1].Title)
	assert.Equal(t, "2027-05-08", all[1].Date)
	mine, err := b.Jobs(bea)
	require.NoError(t, err)
	require.Len(t, mine, 1)
	assert.Equal(t, first, mine[0].ID)
}

func TestSyncCreatesJobsForTheOwnerOnly(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	op := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Set, Entity: "brief",
		Field: "title", Value: []byte(`"Made offline"`), Wall: start}
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: start, Ops: []job.Op{op}}
	_, err := b.Sync(b.ctx, bea, "newjob", req)
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, err = b.Sync(b.ctx, bea, id+sync.OwnSuffix, sync.Request{V: sync.WireVersion, Device: "phone"})
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.Sync(b.ctx, owner, "newjob", req)
	require.NoError(t, err)
	assert.Equal(t, "Made offline", b.read(t, "newjob").Brief.Title)
	pulled, err := b.Sync(b.ctx, owner, "another"+sync.OwnSuffix, sync.Request{V: sync.WireVersion, Device: "phone"})
	require.NoError(t, err, "an empty job made offline is created")
	assert.NotEmpty(t, pulled.Epoch)
	_, err = b.Sync(b.ctx, owner, id, sync.Request{V: 99, Device: "phone"})
	assert.ErrorIs(t, err, sync.ErrTooNew)
}

func TestNews(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	news, cancel := b.Subscribe(id, "")
	elsewhere, cancelElsewhere := b.Subscribe("another", "")
	defer cancelElsewhere()
	_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "x"), job.Put("own/contact", "name", "y")})
	require.NoError(t, err)
	one, two := <-news, <-news
	assert.Equal(t, id, one.Log)
	assert.Equal(t, id+sync.OwnSuffix, two.Log)
	var last store.News
	for range 40 { // far more than a slow reader's channel holds
		_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "x")})
		require.NoError(t, err)
	}
	for len(news) > 0 {
		last = <-news
	}
	assert.Equal(t, one.Seq+40, last.Seq, "the last one is never lost")
	mine, cancelMine := b.Subscribe(id, owner.ID)
	defer cancelMine()
	op := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Set, Entity: "brief",
		Field: "title", Value: []byte(`"By phone"`), Wall: start}
	_, err = b.Sync(b.ctx, owner, id, sync.Request{V: sync.WireVersion, Device: "phone", Now: start, Ops: []job.Op{op}})
	require.NoError(t, err)
	assert.Equal(t, one.Seq+41, (<-news).Seq)
	assert.Empty(t, mine, "a phone gets no news of its own operations")
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "By form")})
	require.NoError(t, err)
	assert.Equal(t, one.Seq+42, (<-mine).Seq, "but of its session's forms")
	<-news
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("piece/door", "length_mm", -1)})
	require.Error(t, err)
	assert.Empty(t, news, "a failed write sends no news")
	assert.Empty(t, elsewhere)
	cancel()
	cancel()
	_, open := <-news
	assert.False(t, open)
}
