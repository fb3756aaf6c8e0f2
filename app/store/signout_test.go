package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checkStays checks that sessions are open and that the owner has one other device.
func (b *bench) checkStays(t *testing.T, owner store.Session, tokens map[string]string) {
	for name, token := range tokens {
		session, err := b.Session(token)
		assert.NoError(t, err, name)
		assert.Empty(t, session.Closed, name)
	}
	others, err := b.OtherOwnerDevices(owner)
	require.NoError(t, err)
	assert.Equal(t, 1, others)
	devices, err := b.OwnerDevices()
	require.NoError(t, err)
	assert.Len(t, devices, 2)
}

// A signed-out session is gone, even after a restore. The app installed from it and other sessions of the link stay.
func TestSignOutSurvivesARestore(t *testing.T) {
	for name, back := range map[string]func(t *testing.T, b *bench, backup string){
		"by the command": func(t *testing.T, b *bench, backup string) {
			_, err := store.Restore(b.ctx, backup, b.dir, b.options())
			require.NoError(t, err)
		},
		"by a file copied back": waysBack["by a file copied back"],
	} {
		t.Run(name, func(t *testing.T) {
			b := openStore(t)
			invite, err := b.CreateOwnerInvite(b.ctx, b.System("test"))
			require.NoError(t, err)
			token, leaver, err := b.RedeemInvite(b.ctx, invite, "Dora")
			require.NoError(t, err)
			staysToken, stays := b.owner(t)
			code, err := b.CreateInstallCode(b.ctx, leaver)
			require.NoError(t, err)
			twinToken, _, err := b.RedeemInstallCode(b.ctx, code)
			require.NoError(t, err)
			unspent, err := b.CreateInstallCode(b.ctx, leaver)
			require.NoError(t, err)
			id := b.job(t, stays)
			_, secret, err := b.CreateLink(b.ctx, stays, id, store.LinkWish{Name: "Bea", Role: job.Helper, Ends: b.now + 10*day})
			require.NoError(t, err)
			beaToken, bea, err := b.RedeemLink(b.ctx, secret, "")
			require.NoError(t, err)
			secondToken, _, err := b.RedeemLink(b.ctx, secret, "")
			require.NoError(t, err)
			backup := filepath.Join(t.TempDir(), "copy.db")
			require.NoError(t, b.Backup(b.ctx, backup))

			others, err := b.OtherOwnerDevices(stays)
			require.NoError(t, err)
			require.Equal(t, 2, others)
			require.NoError(t, b.SignOut(b.ctx, leaver))
			require.NoError(t, b.SignOut(b.ctx, bea))
			require.NoError(t, b.SignOut(b.ctx, bea), "again changes nothing")
			check := func() {
				for what, gone := range map[string]string{"owner": token, "helper": beaToken} {
					_, err := b.Session(gone)
					assert.ErrorIs(t, err, store.ErrNotFound, what)
				}
				b.checkStays(t, stays, map[string]string{"the other owner": staysToken, "the installed app": twinToken,
					"the helper's other phone": secondToken})
				_, _, err = b.RedeemInvite(b.ctx, invite, "Again")
				assert.ErrorIs(t, err, store.ErrUnknownLink, "its invite stays spent")
				_, _, err = b.RedeemInstallCode(b.ctx, unspent)
				assert.Error(t, err, "its install codes are gone")
			}
			check()
			raw, err := os.ReadFile(filepath.Join(b.dir, "closed.ndjson"))
			require.NoError(t, err)
			assert.Contains(t, string(raw), leaver.ID)
			require.NoError(t, b.Close())
			back(t, b, backup)
			b.reopen(t)
			check()
		})
	}
}
