package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waysBack are the ways to restore an earlier database.
var waysBack = map[string]func(t *testing.T, b *bench, backup string){
	"by the command": func(t *testing.T, b *bench, backup string) {
		restored, err := store.Restore(b.ctx, backup, b.dir, b.options())
		require.NoError(t, err)
		assert.Equal(t, [2]int{1, 2}, [2]int{restored.Links, restored.Devices})
	},
	"by a file copied back": func(t *testing.T, b *bench, backup string) {
		data, err := os.ReadFile(backup)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(b.dir, store.DatabaseName), data, 0o600))
	},
}

// checkRevoked checks that sessions, by their tokens, were revoked at the given time.
func (b *bench) checkRevoked(t *testing.T, tokens map[string]string, closedAt int64) {
	for who, token := range tokens {
		session, err := b.Session(token)
		require.NoError(t, err)
		assert.Equal(t, sync.Revoked, session.Closed, who)
		assert.Equal(t, closedAt, session.ClosedAt, "%s: at its original time", who)
	}
}

// checkEnded checks that a device and the app installed from it were ended at the given time.
func (b *bench) checkEnded(t *testing.T, lost store.Session, closedAt int64) {
	devices, err := b.OwnerDevices()
	require.NoError(t, err)
	ended := 0
	for _, d := range devices {
		if d.ID == lost.ID || d.From == lost.ID {
			assert.Equal(t, closedAt, d.ClosedAt)
			ended++
		}
	}
	assert.Equal(t, 2, ended, "with the app installed from it")
}

// checkClosed checks how many of each kind are closed, and the row of the one closed link.
func (b *bench) checkClosed(t *testing.T, link store.Closed) {
	kinds := map[string]int{}
	for _, c := range b.Closed() {
		kinds[c.Kind]++
		if c.Kind == store.ClosedLink {
			assert.Equal(t, link, c)
		}
	}
	assert.Equal(t,
		map[string]int{store.ClosedLink: 1, store.ClosedDevice: 2, store.ClosedInvite: 3, store.ClosedCode: 2}, kinds)
	listed, err := store.ReadClosed(b.dir)
	require.NoError(t, err)
	assert.Equal(t, b.Closed(), listed)
}

// What was revoked, ended or spent after a backup stays so after a restore, with its original time.
func TestRestoreReopensNothing(t *testing.T) {
	for name, back := range waysBack {
		t.Run(name, func(t *testing.T) {
			b := openStore(t)
			_, owner := b.owner(t)
			lostToken, lost := b.owner(t)
			id := b.job(t, owner)
			code, err := b.CreateInstallCode(b.ctx, lost)
			require.NoError(t, err)
			_, _, err = b.RedeemInstallCode(b.ctx, code)
			require.NoError(t, err)
			link, secret, err := b.CreateLink(b.ctx, owner, id,
				store.LinkWish{Name: "Bea", Role: job.Helper, Ends: b.now + 10*day})
			require.NoError(t, err)
			beaToken, bea, err := b.RedeemLink(b.ctx, secret, "")
			require.NoError(t, err)
			invite, err := b.CreateOwnerInvite(b.ctx, owner)
			require.NoError(t, err)
			inviteFile := filepath.Join(b.dir, "invites", store.HashOf(invite))
			text, err := os.ReadFile(inviteFile)
			require.NoError(t, err)
			unspent, err := b.CreateInstallCode(b.ctx, owner)
			require.NoError(t, err)
			backup := filepath.Join(t.TempDir(), "copy.db")
			require.NoError(t, b.Backup(b.ctx, backup))

			b.now += hour
			closedAt := b.now
			require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
			require.NoError(t, b.EndDevice(b.ctx, owner, lost.ID))
			_, _, err = b.RedeemInvite(b.ctx, invite, "Spent")
			require.NoError(t, err)
			_, _, err = b.RedeemInstallCode(b.ctx, unspent)
			require.NoError(t, err)
			b.now += hour
			require.NoError(t, b.Close())
			back(t, b, backup)
			require.NoError(t, os.WriteFile(inviteFile, text, 0o600))
			b.reopen(t)

			b.checkRevoked(t, map[string]string{"helper": beaToken, "lost device": lostToken}, closedAt)
			_, _, err = b.RedeemLink(b.ctx, secret, "Bea again")
			assert.ErrorIs(t, err, store.ErrLinkRevoked)
			_, _, err = b.RedeemInvite(b.ctx, invite, "Once more")
			assert.ErrorIs(t, err, store.ErrUnknownLink)
			_, _, err = b.RedeemInstallCode(b.ctx, unspent)
			assert.ErrorIs(t, err, store.ErrUnknownLink)
			_, err = b.Jobs(bea)
			assert.ErrorIs(t, err, store.ErrClosed)
			links, err := b.Links(id)
			require.NoError(t, err)
			assert.Equal(t, closedAt, links[0].Revoked)
			b.checkEnded(t, lost, closedAt)
			_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "The owner goes on")})
			assert.NoError(t, err)
			b.checkClosed(t,
				store.Closed{Kind: store.ClosedLink, ID: link.ID, At: closedAt, Name: "Bea", Job: id, By: owner.ID})
		})
	}
}

// A replay does not make a spent invite valid again.
func TestReplayReopensNothing(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	b.job(t, owner)
	invite, err := b.CreateOwnerInvite(b.ctx, owner)
	require.NoError(t, err)
	file := filepath.Join(b.dir, "invites", store.HashOf(invite))
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	_, _, err = b.RedeemInvite(b.ctx, invite, "Spent")
	require.NoError(t, err)
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.DatabaseName)))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, text, 0o600))
	b.reopen(t)
	_, _, err = b.RedeemInvite(b.ctx, invite, "Once more")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
}

// A revocation that cannot be written fails and closes nothing.
func TestRevocationThatCannotBeWrittenFails(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	_, lost := b.owner(t)
	id := b.job(t, owner)
	link, token, _ := b.helper(t, owner, id, "Bea", job.Helper)
	file := filepath.Join(b.dir, store.ClosedName)
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.Remove(file))
	require.NoError(t, os.Mkdir(file, 0o700)) // not even root can write there
	for name, err := range map[string]error{"link": b.RevokeLink(b.ctx, owner, link.ID),
		"device": b.EndDevice(b.ctx, owner, lost.ID)} {
		assert.ErrorIs(t, err, store.ErrDirectory, name)
		assert.ErrorContains(t, err, "was not closed", name)
	}
	session, err := b.Session(token)
	require.NoError(t, err)
	assert.Empty(t, session.Closed)
	require.NoError(t, os.Remove(file))
	require.NoError(t, os.WriteFile(file, append(before, `{"k":"link","id":"cut off by a pow`...), 0o600))
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	session, err = b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, session.Closed)
	listed, err := store.ReadClosed(b.dir)
	require.NoError(t, err)
	assert.Len(t, listed, strings.Count(string(before), "\n")+1, "the truncated line damages no other")
}

// A database of an earlier build knows what was closed but has no file of it. Opening it makes that file, so that an
// older backup reopens nothing.
func TestClosedLinksOfAnEarlierBuildStayClosed(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, _ := b.helper(t, owner, id, "Bea", job.Helper)
	backup := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, backup))
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.ClosedName)))
	restored, err := store.Restore(b.ctx, backup, b.dir, b.options()) // before this build has opened it
	require.NoError(t, err)
	assert.Equal(t, 1, restored.Links)
	b.reopen(t)
	session, err := b.Session(token)
	require.NoError(t, err)
	assert.Equal(t, sync.Revoked, session.Closed)
}
