package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTypedCode(t *testing.T) {
	for _, row := range []struct {
		name, text, want string
		looks            bool
	}{
		{"as it is shown", "K7M-4TX-9CR", "K7M4TX9CR", true},
		{"in small letters, with spaces", " k7m 4tx 9cr\t", "K7M4TX9CR", true},
		{"with dots and a keyboard's own signs", "K7M\u20134TX.9CR\u00a0", "K7M4TX9CR", true},
		{"letters that look like digits", "KSM-ZTB-9CR", "K5M2T89CR", true},
		{"too short", "K7M-4TX-9C", "K7M4TX9C", false},
		{"too long", "K7M-4TX-9CRR", "K7M4TX9CRR", false},
		{"a letter that no code has", "K7M-4TX-9CE", "K7M4TX9CE", false},
		{"a letter of another alphabet", "K7M-4TX-9Cß", "K7M4TX9Cß", false},
		{"a link's token", "abcdefghijklmnopqrstuvwxyz", "A8CDEFGHIJKLMNOPQR5TUVWXY2", false},
		{"nothing", "", "", false},
	} {
		code, looks := store.TypedCode(row.text)
		assert.Equal(t, row.looks, looks, row.name)
		assert.Equal(t, row.want, code, row.name)
	}
}

// A typed code lets the same person in once, and only while it lasts.
func TestATypedCodeIsSpentOnce(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, bea := b.helper(t, owner, id, "Bea", job.Helper)
	for _, by := range []store.Session{owner, bea} {
		code, ends, err := b.CreateTypedCode(b.ctx, by)
		require.NoError(t, err)
		assert.Equal(t, b.now+10*60*1000, ends)
		first, err := b.LookAtTypedCode(b.ctx, code)
		require.NoError(t, err, "looking spends nothing")
		assert.True(t, first.SamePerson(by))
		_, _, err = b.RedeemInstallCode(b.ctx, code)
		assert.ErrorIs(t, err, store.ErrUnknownLink, "it opens only where tries are counted")
		b.now = ends - 1
		token, in, err := b.RedeemTypedCode(b.ctx, strings.ToLower(code[:3]+" "+code[3:]))
		require.NoError(t, err)
		assert.Equal(t, by.Role, in.Role)
		assert.Equal(t, by.Name, in.Name)
		assert.Equal(t, by.Job, in.Job)
		assert.Equal(t, by.Link, in.Link)
		assert.Equal(t, by.ID, in.From, "a device of the same person")
		assert.NotEqual(t, by.ID, in.ID)
		assert.Zero(t, b.Codes(), "it is deleted")
		found, err := b.Session(token)
		require.NoError(t, err)
		assert.Equal(t, in.ID, found.ID)
		_, _, err = b.RedeemTypedCode(b.ctx, code)
		assert.ErrorIs(t, err, store.ErrUnknownLink, "spent")
		_, err = b.LookAtTypedCode(b.ctx, code)
		assert.ErrorIs(t, err, store.ErrUnknownLink)

		late, ends, err := b.CreateTypedCode(b.ctx, by)
		require.NoError(t, err)
		b.now = ends
		_, _, err = b.RedeemTypedCode(b.ctx, late)
		assert.ErrorIs(t, err, store.ErrLinkEnded)
		require.NoError(t, b.Sweep())
	}
	assert.NotContains(t, b.Closed()[0].ID, "typed")
	_, _, err := b.RedeemTypedCode(b.ctx, "")
	assert.ErrorIs(t, err, store.ErrUnknownLink)
}

// A typed code ends with the next one, with its session and with its link, and no backup brings it back.
func TestWhatEndsATypedCode(t *testing.T) {
	for _, row := range []struct {
		name string
		end  func(b *bench, owner, by store.Session, link string) error
		want error
	}{
		{"another is made", func(b *bench, _, by store.Session, _ string) error {
			_, _, err := b.CreateTypedCode(b.ctx, by)
			return err
		}, store.ErrUnknownLink},
		{"signing out", func(b *bench, _, by store.Session, _ string) error { return b.SignOut(b.ctx, by) },
			store.ErrUnknownLink},
		{"the link ends", func(b *bench, owner, _ store.Session, link string) error {
			return b.RevokeLink(b.ctx, owner, link)
		}, store.ErrLinkRevoked},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := openStore(t)
			_, owner := b.owner(t)
			link, _, bea := b.helper(t, owner, b.job(t, owner), "Bea", job.Helper)
			code, _, err := b.CreateTypedCode(b.ctx, bea)
			require.NoError(t, err)
			require.NoError(t, row.end(b, owner, bea, link.ID))
			_, _, err = b.RedeemTypedCode(b.ctx, code)
			assert.ErrorIs(t, err, row.want)
		})
	}
	b := openStore(t)
	_, lost := b.owner(t)
	_, owner := b.owner(t)
	code, _, err := b.CreateTypedCode(b.ctx, lost)
	require.NoError(t, err)
	used, _, err := b.CreateTypedCode(b.ctx, owner)
	require.NoError(t, err)
	_, in, err := b.RedeemTypedCode(b.ctx, used)
	require.NoError(t, err)
	require.NoError(t, b.EndDevice(b.ctx, owner, lost.ID))
	_, _, err = b.RedeemTypedCode(b.ctx, code)
	assert.ErrorIs(t, err, store.ErrLinkRevoked)
	_, _, err = b.CreateTypedCode(b.ctx, lost)
	assert.ErrorIs(t, err, store.ErrClosed)
	_, _, err = b.CreateTypedCode(b.ctx, b.System("test"))
	assert.ErrorIs(t, err, store.ErrClosed, "the server itself has no app")
	require.NoError(t, b.EndDevice(b.ctx, owner, in.ID), "the device that a code let in can be ended")
	_, err = b.CreateOwnerInvite(b.ctx, in)
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.CreateOwnerInvite(b.ctx, owner)
	require.NoError(t, err, "the one that ended it goes on")
}

// Codes that a browser fetches with each page do not push out the one that somebody types.
func TestATypedCodeOutlastsInstallCodes(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	code, _, err := b.CreateTypedCode(b.ctx, owner)
	require.NoError(t, err)
	for range 30 {
		b.now++
		_, err = b.CreateInstallCode(b.ctx, owner)
		require.NoError(t, err)
	}
	assert.Equal(t, 21, b.Codes())
	_, _, err = b.RedeemTypedCode(b.ctx, code)
	require.NoError(t, err)
}

// Neither a typed code nor its plain hash is on disk: all codes could be tried against the hash.
func TestATypedCodeIsStoredUnderAKey(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	code, _, err := b.CreateTypedCode(b.ctx, owner)
	require.NoError(t, err)
	require.NoError(t, filepath.Walk(b.dir, func(path string, info os.FileInfo, err error) error {
		require.NoError(t, err)
		if info.IsDir() {
			return nil
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.NotContains(t, string(data), code, path)
		assert.NotContains(t, string(data), store.HashOf(code), path)
		return nil
	}))
}

func TestNameDevice(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	link, token, bea := b.helper(t, owner, id, "Bea", job.Helper)
	_, _, other := b.helper(t, owner, id, "Tomasz", job.Lead)
	label := func() string {
		found, err := b.Session(token)
		require.NoError(t, err)
		return found.Label
	}
	require.NoError(t, b.NameDevice(b.ctx, bea, bea.ID, " My\nphone "))
	assert.Equal(t, "My phone", label(), "by whoever holds it")
	require.NoError(t, b.NameDevice(b.ctx, owner, bea.ID, "Bea's"))
	assert.Equal(t, "Bea's", label(), "by the owner")
	assert.ErrorIs(t, b.NameDevice(b.ctx, other, bea.ID, "x"), store.ErrNotFound, "by nobody else")
	assert.ErrorIs(t, b.NameDevice(b.ctx, bea, owner.ID, "x"), store.ErrNotFound)
	assert.ErrorIs(t, b.NameDevice(b.ctx, owner, "nothere", "x"), store.ErrNotFound)
	var field *job.FieldError
	require.ErrorAs(t, b.NameDevice(b.ctx, bea, bea.ID, " \n"), &field)
	assert.Equal(t, "label", field.Path)
	links, err := b.Links(id)
	require.NoError(t, err)
	for _, l := range links {
		if l.ID == link.ID {
			assert.Equal(t, "Bea's", l.Devices[0].Label)
		}
	}
	require.NoError(t, b.RevokeLink(b.ctx, owner, link.ID))
	assert.ErrorIs(t, b.NameDevice(b.ctx, bea, bea.ID, "x"), store.ErrClosed)
	assert.Equal(t, "Bea's", label())
}
