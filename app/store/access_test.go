package store_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
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
	late, err := b.CreateOwnerInvite(b.ctx, b.System("test"))
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
		path   string
		damage func(*store.LinkWish)
	}{
		{"name", func(w *store.LinkWish) { w.Name = "  " }},
		{"name", func(w *store.LinkWish) { w.Name = string(bytes.Repeat([]byte("x"), 61)) }},
		{"role", func(w *store.LinkWish) { w.Role = job.Owner }},
		{"role", func(w *store.LinkWish) { w.Role = "" }},
		{"ends", func(w *store.LinkWish) { w.Ends = start }},
		{"ends", func(w *store.LinkWish) { w.Ends = start + 401*day }},
	} {
		wish := good
		row.damage(&wish)
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

func TestLinkLifetime(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, secret, err := b.CreateLink(b.ctx, owner, id,
		store.LinkWish{Name: "Tomasz", Role: job.Helper, Ends: start + 2*day})
	require.NoError(t, err)
	token, tomasz, err := b.RedeemLink(b.ctx, secret, "")
	require.NoError(t, err)
	assert.Equal(t, "Tomasz", tomasz.Name, "the link's name, as none was typed")
	assert.Equal(t, id, tomasz.Job)
	b.now++
	_, typed, err := b.RedeemLink(b.ctx, secret, "  His \u202etab\nlet\x00 ")
	require.NoError(t, err)
	assert.Equal(t, "His tab let", typed.Name, "a typed name is shown in one line, without control characters")
	_, _, err = b.RedeemLink(b.ctx, secret+"x", "Guess")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
	links, err := b.Links(id)
	require.NoError(t, err)
	require.Len(t, links, 1)
	assert.Equal(t, link.ID, links[0].ID)
	require.Len(t, links[0].Devices, 2)
	assert.Equal(t, "His tab let", links[0].Devices[1].Name)
	for n := 2; n < 12; n++ {
		_, _, err = b.RedeemLink(b.ctx, secret, "Another")
		require.NoError(t, err)
	}
	_, _, err = b.RedeemLink(b.ctx, secret, "Too many")
	assert.ErrorIs(t, err, store.ErrLinkFull)

	b.now += 3 * day
	ended, err := b.Session(token)
	require.NoError(t, err, "an ended session is still known")
	assert.Equal(t, sync.Ended, ended.Closed)
	assert.Equal(t, start+2*day, ended.ClosedAt)
	_, _, err = b.RedeemLink(b.ctx, secret, "Late")
	assert.ErrorIs(t, err, store.ErrLinkEnded)
	_, err = b.Write(b.ctx, ended, id, []job.Change{job.Put("card/x", "done", true)})
	assert.ErrorIs(t, err, store.ErrClosed)
	_, err = b.Jobs(ended)
	assert.ErrorIs(t, err, store.ErrClosed)
}

func TestRevokingWorksAtOnce(t *testing.T) {
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

	resp := b.send(t, bea, id, addition(1, 5, start-hour)) // with the session from before
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
	assert.Zero(t, b.read(t, id).Made("card/make/door"), "all or nothing")
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, []string{"operation1"}))
	assert.Equal(t, 5, b.read(t, id).Made("card/make/door"))
	held, err = b.Quarantine(id)
	require.NoError(t, err)
	assert.Empty(t, held)
	assert.Equal(t, sync.OK, b.send(t, bea, id, addition(1, 5, start-hour)).Acks[0].Result, "the job has it now")
}

func TestIgnoredOperationStaysOut(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	for range 2 {
		assert.Equal(t, sync.Quarantined, b.send(t, bea, id, addition(1, 5, start)).Acks[0].Result)
		if held, _ := b.Quarantine(id); len(held) > 0 {
			require.NoError(t, b.IgnoreQuarantined(b.ctx, owner, id, []string{"operation1"}))
		}
		held, err := b.Quarantine(id)
		require.NoError(t, err)
		assert.Empty(t, held)
	}
	assert.Zero(t, b.read(t, id).Made("card/make/door"))
}

func TestEndOwnerDevice(t *testing.T) {
	b := openStore(t)
	token, lost := b.owner(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	code, err := b.CreateInstallCode(b.ctx, lost)
	require.NoError(t, err)
	_, installed, err := b.RedeemInstallCode(b.ctx, code)
	require.NoError(t, err)
	unspent, err := b.CreateInstallCode(b.ctx, installed)
	require.NoError(t, err)
	stolen, err := b.CreateOwnerInvite(b.ctx, lost)
	require.NoError(t, err)
	valid, err := b.CreateOwnerInvite(b.ctx, owner)
	require.NoError(t, err)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	devices, err := b.OwnerDevices()
	require.NoError(t, err)
	require.Len(t, devices, 3)
	assert.ErrorIs(t, b.EndDevice(b.ctx, bea, lost.ID), store.ErrForbidden)
	assert.ErrorIs(t, b.EndDevice(b.ctx, owner, "nothere"), store.ErrNotFound)
	assert.ErrorIs(t, b.EndDevice(b.ctx, owner, bea.ID), store.ErrNotFound, "a helper's device is ended by its link")
	news, _ := b.Subscribe(id, installed.ID)
	own, cancel := b.Subscribe(id, owner.ID)
	defer cancel()

	require.NoError(t, b.EndDevice(b.ctx, owner, lost.ID))
	_, open := <-news
	assert.False(t, open, "its streams end at once")
	found, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, found.Closed)
	_, err = b.Write(b.ctx, lost, id, []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, store.ErrClosed)
	_, err = b.Write(b.ctx, installed, id, []job.Change{job.Put("brief", "title", "x")})
	assert.ErrorIs(t, err, store.ErrClosed, "so is the app installed from it")
	_, _, err = b.CreateLink(b.ctx, lost, id, store.LinkWish{Name: "x", Role: job.Helper, Ends: start + day})
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.CreateOwnerInvite(b.ctx, lost)
	assert.ErrorIs(t, err, store.ErrForbidden)
	assert.ErrorIs(t, b.EndDevice(b.ctx, lost, owner.ID), store.ErrForbidden)
	_, _, err = b.RedeemInvite(b.ctx, stolen, "Thief")
	assert.ErrorIs(t, err, store.ErrUnknownLink, "its unused invite is gone")
	_, _, err = b.RedeemInstallCode(b.ctx, unspent)
	assert.ErrorIs(t, err, store.ErrLinkRevoked)
	_, err = b.Sync(b.ctx, lost, "made-by-thief", sync.Request{V: sync.WireVersion, Device: "phone"})
	assert.ErrorIs(t, err, store.ErrNotFound, "a closed session makes no jobs")

	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "Still mine")})
	require.NoError(t, err)
	assert.Equal(t, id, (<-own).Log, "the other device's stream continues")
	_, _, err = b.RedeemInvite(b.ctx, valid, "New phone")
	require.NoError(t, err)
}

// Operations of an ended owner device wait in quarantine, of both logs. They are counted and can be accepted.
func TestEndedDeviceIsHeldInBothLogs(t *testing.T) {
	b := openStore(t)
	_, lost := b.owner(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	b.now += hour // at equal times the devices' random ids would decide which value wins
	require.NoError(t, b.EndDevice(b.ctx, owner, lost.ID))
	send := func(log string, n uint64, entity, value string) {
		ack := b.send(t, lost, log, job.Op{ID: fmt.Sprint("operation", n), Device: "phone", Number: n, Version: 1,
			Kind: job.Set, Entity: entity, Field: "name", Value: []byte(value), Wall: b.now}).Acks[0]
		require.Equal(t, sync.Quarantined, ack.Result, ack.Why)
	}
	send(id+sync.OwnSuffix, 1, "own/contact", `"Friends of the library"`)
	send(id, 2, "piece/door", `"Porch garland"`)
	send(id+sync.OwnSuffix, 3, "own/contact", `"Nobody"`)
	held, err := b.Quarantine(id)
	require.NoError(t, err)
	require.Len(t, held, 3)
	assert.Equal(t, []string{"operation1", "operation2", "operation3"},
		[]string{held[0].Op.ID, held[1].Op.ID, held[2].Op.ID})
	jobs, err := b.Jobs(owner)
	require.NoError(t, err)
	assert.Equal(t, 3, jobs[0].Waiting)
	assert.ErrorIs(t, b.AcceptQuarantined(b.ctx, owner, id, []string{"operation1", "operation2", "nothere"}),
		store.ErrNotFound)
	assert.Equal(t, "Town library", b.read(t, id).Contact.Name, "all or nothing")
	require.NoError(t, b.AcceptQuarantined(b.ctx, owner, id, []string{"operation1", "operation2"}))
	require.NoError(t, b.IgnoreQuarantined(b.ctx, owner, id, []string{"operation3"}))
	assert.Equal(t, "Friends of the library", b.read(t, id).Contact.Name)
	piece := b.read(t, id).Pieces[0]
	assert.Equal(t, "Porch garland", piece.Name)
	held, err = b.Quarantine(id)
	require.NoError(t, err)
	assert.Empty(t, held)
}

const spendDir = "GARLANDRY_SPEND_TEST_DIR" // set in the child: the data directory

// redeemOnAFullDisk redeems an invite while no file may grow beyond two pages, so that the commit fails as on a full
// disk. Then it redeems the invite without that limit.
func redeemOnAFullDisk(dir string) error {
	s, err := store.Open(dir, store.Options{})
	if err != nil {
		return err
	}
	ctx := context.Background()
	invite, err := s.CreateOwnerInvite(ctx, s.System("test"))
	if err != nil {
		return err
	}
	var room syscall.Rlimit
	if err := errors.Join(syscall.Getrlimit(syscall.RLIMIT_FSIZE, &room),
		syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 8192, Max: room.Max})); err != nil {
		return err
	}
	if _, _, err := s.RedeemInvite(ctx, invite, "Phone"); !errors.Is(err, store.ErrDirectory) {
		return fmt.Errorf("a full disk was not reported: %w", err)
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &room); err != nil {
		return err
	}
	if _, _, err := s.RedeemInvite(ctx, invite, "Phone"); err != nil {
		return fmt.Errorf("the invite was spent by the full disk: %w", err)
	}
	return s.Close()
}

// An invite is spent only if the new session is stored.
func TestAFullDiskSpendsNoInvite(t *testing.T) {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), spendDir+"="+t.TempDir())
	out, err := child.CombinedOutput()
	require.NoError(t, err, string(out))
}

// A spent invite stays spent, even if its file could not be deleted or came back with a copy of the directory.
func TestASpentInviteStaysSpent(t *testing.T) {
	b := openStore(t)
	invite, err := b.CreateOwnerInvite(b.ctx, b.System("test"))
	require.NoError(t, err)
	file := filepath.Join(b.dir, "invites", store.HashOf(invite))
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	_, _, err = b.RedeemInvite(b.ctx, invite, "Phone")
	require.NoError(t, err)
	assert.NoFileExists(t, file)
	require.NoError(t, os.WriteFile(file, text, 0o600))
	_, _, err = b.RedeemInvite(b.ctx, invite, "Another")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
}

// Making an invite deletes expired ones and keeps at most 50.
func TestOldInvitesAreDeleted(t *testing.T) {
	b := openStore(t)
	files := func() int {
		entries, err := os.ReadDir(filepath.Join(b.dir, "invites"))
		require.NoError(t, err)
		return len(entries)
	}
	for range 70 {
		b.now++
		_, err := store.Invite(b.dir, b.options())
		require.NoError(t, err)
	}
	assert.Equal(t, 50, files())
	b.now += 8 * day
	last, err := store.Invite(b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, 1, files())
	_, _, err = b.RedeemInvite(b.ctx, last, "Phone")
	require.NoError(t, err)
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
	assert.Equal(t, "Bea's phone", installed.Name, "the installed app keeps the name")
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

// No token is on disk in plain text: not in the database, the journal or a file's name.
func TestOnlyTokenHashesAreStored(t *testing.T) {
	b := openStore(t)
	ownerToken, owner := b.owner(t)
	id := b.job(t, owner)
	_, linkToken, err := b.CreateLink(b.ctx, owner, id, store.LinkWish{Name: "Bea", Role: job.Helper, Ends: start + day})
	require.NoError(t, err)
	beaToken, bea, err := b.RedeemLink(b.ctx, linkToken, "phone")
	require.NoError(t, err)
	code, err := b.CreateInstallCode(b.ctx, bea)
	require.NoError(t, err)
	invite, err := b.CreateOwnerInvite(b.ctx, b.System("test"))
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
			assert.Zero(t, info.Mode()&0o077, "%s is private", path)
		}
		return nil
	}))
	assert.GreaterOrEqual(t, files, 4, "database, key, journal, invite")
}
