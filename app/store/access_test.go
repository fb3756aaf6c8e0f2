package store_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAnInviteWorksOnceAndForAWeek(t *testing.T) {
	b := openStore(t)
	invite, err := store.Invite(b.dir, b.options()) // as the command line does while the server runs
	require.NoError(t, err)
	token, session, err := b.RedeemInvite(b.ctx, invite, "Phone")
	require.NoError(t, err)
	assert.Equal(t, job.Owner, session.Role)
	_, _, err = b.RedeemInvite(b.ctx, invite, "Another")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	_, _, err = b.RedeemInvite(b.ctx, "../../etc/passwd", "Another")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	late, err := b.CreateOwnerInvite(b.ctx)
	require.NoError(t, err)
	b.now += 8 * day
	_, _, err = b.RedeemInvite(b.ctx, late, "Late")
	assert.ErrorIs(t, err, store.ErrLinkEnded)
	found, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, session.ID, found.ID)
	assert.Equal(t, b.now, found.Seen)
	_, err = b.Session("not a token")
	assert.ErrorIs(t, err, store.ErrNotFound)
}

func TestALinkWishOutOfRange(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	good := store.LinkWish{Name: "Bea", Role: job.Helper, Ends: start + day}
	for _, row := range []struct {
		path  string
		spoil func(*store.LinkWish)
	}{
		{"name", func(w *store.LinkWish) { w.Name = "  " }},
		{"name", func(w *store.LinkWish) { w.Name = string(bytes.Repeat([]byte("x"), 61)) }},
		{"role", func(w *store.LinkWish) { w.Role = job.Owner }},
		{"role", func(w *store.LinkWish) { w.Role = "" }},
		{"ends", func(w *store.LinkWish) { w.Ends = start }},
		{"ends", func(w *store.LinkWish) { w.Ends = start + 401*day }},
	} {
		wish := good
		row.spoil(&wish)
		_, _, err := b.CreateLink(b.ctx, owner, id, wish)
		var field *job.FieldError
		require.ErrorAs(t, err, &field, row.path)
		assert.Equal(t, row.path, field.Path)
	}
	_, _, err := b.CreateLink(b.ctx, owner, "nothere", good)
	assert.ErrorIs(t, err, store.ErrNotFound)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	_, _, err = b.CreateLink(b.ctx, bea, id, good)
	assert.ErrorIs(t, err, store.ErrForbidden)
}

func TestALinkFromBeginningToEnd(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, secret, err := b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Tomasz", Role: job.Helper, Ends: start + 2*day})
	require.NoError(t, err)
	token, tomasz, err := b.RedeemLink(b.ctx, secret, "")
	require.NoError(t, err)
	assert.Equal(t, "Tomasz", tomasz.Name, "as the link says, where nothing was typed")
	assert.Equal(t, id, tomasz.Job)
	b.now++
	_, typed, err := b.RedeemLink(b.ctx, secret, "  His \u202etab\nlet\x00 ")
	require.NoError(t, err)
	assert.Equal(t, "His tab let", typed.Name, "what is typed is what is shown, in one line, the right way round")
	_, _, err = b.RedeemLink(b.ctx, secret+"x", "Guess")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	links, err := b.Links(id)
	require.NoError(t, err)
	require.Len(t, links, 1)
	assert.Equal(t, link.ID, links[0].ID)
	require.Len(t, links[0].Devices, 2)
	assert.Equal(t, "His tab let", links[0].Devices[1].Name)
	for n := 2; n < 12; n++ {
		_, _, err = b.RedeemLink(b.ctx, secret, "One more")
		require.NoError(t, err)
	}
	_, _, err = b.RedeemLink(b.ctx, secret, "Too many")
	assert.ErrorIs(t, err, store.ErrLinkFull)

	b.now += 3 * day
	ended, err := b.Session(token)
	require.NoError(t, err, "a session is known after its end")
	assert.Equal(t, sync.Ended, ended.Closed)
	assert.Equal(t, start+2*day, ended.ClosedAt)
	_, _, err = b.RedeemLink(b.ctx, secret, "Late")
	assert.ErrorIs(t, err, store.ErrLinkEnded)
	_, err = b.Write(b.ctx, ended, id, []job.Change{job.Put("card/x", "done", true)})
	assert.ErrorIs(t, err, store.ErrClosed)
	_, err = b.Jobs(ended)
	assert.ErrorIs(t, err, store.ErrClosed)
}

func TestRevokingTakesHoldAtOnce(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	assert.ErrorIs(t, b.RevokeLink(b.ctx, bea, link.ID), store.ErrForbidden)
	assert.ErrorIs(t, b.RevokeLink(b.ctx, owner, "nothere"), store.ErrNotFound)
	revoked, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, revoked.Closed)

	op := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Add, Entity: "card/make/door", Delta: 5, Wall: start - hour}
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: start, Ops: []job.Op{op}}
	resp, err := b.Sync(b.ctx, bea, id, req) // the caller still holds the session from before
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, resp.Closed)
	assert.Equal(t, sync.Quarantined, resp.Acks[0].Result)
	assert.Empty(t, resp.Recs)
	assert.Zero(t, b.read(t, id).Made("card/make/door"))

	held, err := b.Quarantine(id)
	require.NoError(t, err)
	require.Len(t, held, 1)
	assert.True(t, held[0].BeforeEnd, "made an hour before")
	assert.Equal(t, "Bea's phone", held[0].Author.Name)
	jobs, err := b.Jobs(owner)
	require.NoError(t, err)
	assert.Equal(t, 1, jobs[0].Waiting)
	assert.ErrorIs(t, b.AcceptQuarantined(b.ctx, bea, id, []string{"operation1"}), store.ErrForbidden)
	assert.ErrorIs(t, b.AcceptQuarantined(b.ctx, owner, id, []string{"operation1", "nothere"}), store.ErrNotFound)
	assert.Zero(t, b.read(t, id).Made("card/make/door"), "nothing by halves")
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, []string{"operation1"}))
	assert.Equal(t, 5, b.read(t, id).Made("card/make/door"))
	held, err = b.Quarantine(id)
	require.NoError(t, err)
	assert.Empty(t, held)
	resp, err = b.Sync(b.ctx, bea, id, req)
	require.NoError(t, err)
	assert.Equal(t, sync.OK, resp.Acks[0].Result, "now it is in the job")
}

func TestIgnoringKeepsItOutOfTheJob(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	op := job.Op{ID: "operation1", Device: "phone", Number: 1, Version: 1, Kind: job.Add, Entity: "card/make/door", Delta: 5, Wall: start}
	req := sync.Request{V: sync.WireVersion, Device: "phone", Now: start, Ops: []job.Op{op}}
	for range 2 {
		resp, err := b.Sync(b.ctx, bea, id, req)
		require.NoError(t, err)
		assert.Equal(t, sync.Quarantined, resp.Acks[0].Result)
		if held, _ := b.Quarantine(id); len(held) > 0 {
			require.NoError(t, b.IgnoreQuarantined(b.ctx, owner, id, []string{"operation1"}))
		}
		held, err := b.Quarantine(id)
		require.NoError(t, err)
		assert.Empty(t, held)
	}
	assert.Zero(t, b.read(t, id).Made("card/make/door"))
}

func TestALostPhoneOfTheOwner(t *testing.T) {
	b := openStore(t)
	token, lost := b.owner(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	devices, err := b.OwnerDevices()
	require.NoError(t, err)
	require.Len(t, devices, 2)
	require.NoError(t, b.RevokeSession(b.ctx, lost.ID))
	assert.ErrorIs(t, b.RevokeSession(b.ctx, "nothere"), store.ErrNotFound)
	found, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, found.Closed)
	_, err = b.Write(b.ctx, lost, id, []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, store.ErrClosed)
	_, _, err = b.CreateLink(b.ctx, lost, id, store.LinkWish{Name: "x", Role: job.Helper, Ends: start + day})
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.Sync(b.ctx, lost, "made-by-thief", sync.Request{V: sync.WireVersion, Device: "phone"})
	assert.ErrorIs(t, err, store.ErrNotFound, "a closed session makes no jobs")
}

func TestAnInstallCodeIsSpentOnce(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	code, err := b.CreateInstallCode(b.ctx, bea)
	require.NoError(t, err)
	_, installed, err := b.RedeemInstallCode(b.ctx, code)
	require.NoError(t, err)
	assert.Equal(t, "Bea's phone", installed.Name, "the same name in the installed app")
	assert.Equal(t, id, installed.Job)
	_, _, err = b.RedeemInstallCode(b.ctx, code)
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	old, err := b.CreateInstallCode(b.ctx, bea)
	require.NoError(t, err)
	dead, err := b.CreateInstallCode(b.ctx, bea)
	require.NoError(t, err)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	_, _, err = b.RedeemInstallCode(b.ctx, dead)
	assert.ErrorIs(t, err, store.ErrLinkRevoked)
	b.now += 3 * day
	_, _, err = b.RedeemInstallCode(b.ctx, old)
	assert.ErrorIs(t, err, store.ErrLinkEnded)
	_, err = b.CreateInstallCode(b.ctx, bea)
	assert.ErrorIs(t, err, store.ErrClosed)
}

// No token may be read off the disk: neither in the database, nor in the journal, nor in the name of a file.
func TestOnlyHashesOfTokensAreKept(t *testing.T) {
	b := openStore(t)
	ownerToken, owner := b.owner(t)
	id := b.job(t, owner)
	_, linkToken, err := b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Bea", Role: job.Helper, Ends: start + day})
	require.NoError(t, err)
	beaToken, bea, err := b.RedeemLink(b.ctx, linkToken, "phone")
	require.NoError(t, err)
	code, err := b.CreateInstallCode(b.ctx, bea)
	require.NoError(t, err)
	invite, err := b.CreateOwnerInvite(b.ctx)
	require.NoError(t, err)
	files := 0
	require.NoError(t, filepath.Walk(b.dir, func(path string, info os.FileInfo, err error) error {
		require.NoError(t, err)
		for _, secret := range []string{ownerToken, linkToken, beaToken, code, invite} {
			require.Len(t, secret, 26)
			assert.NotContains(t, path, secret)
			if !info.IsDir() {
				data, err := os.ReadFile(path)
				require.NoError(t, err)
				assert.False(t, bytes.Contains(data, []byte(secret)), path)
			}
		}
		if !info.IsDir() {
			files++
			assert.Zero(t, info.Mode()&0o077, "%s is for its owner alone", path)
		}
		return nil
	}))
	assert.GreaterOrEqual(t, files, 4, "database, key, journal, invite")
}
