package store_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wall is a JPEG of some kB, another one for each shade.
func wall(t testing.TB, shade uint8) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 200, 150))
	for i := range m.Pix {
		m.Pix[i] = uint8(i*i) ^ shade
	}
	m.SetGray(0, 0, color.Gray{Y: shade})
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	require.Greater(t, b.Len(), 3000)
	return b.Bytes()
}

// photo adds a photo to a job.
func (b *bench) photo(t testing.TB, owner store.Session, jobID, id string, data []byte, shared bool) string {
	t.Helper()
	hash, entity := store.HashOfPhoto(data), "photo/"+id
	_, err := b.Write(b.ctx, owner, jobID, []job.Change{job.Put(entity, "name", "Wall"), job.Put(entity, "hash", hash),
		job.Put(entity, "bytes", len(data)), job.Put(entity, "width_px", 200), job.Put(entity, "height_px", 150),
		job.Put(entity, "shared", shared), job.Put(entity, "order", len(b.read(t, jobID).Photos))})
	require.NoError(t, err)
	return hash
}

func (b *bench) put(t testing.TB, session store.Session, jobID, hash string, data []byte) {
	t.Helper()
	there, err := b.PutPhoto(b.ctx, session, jobID, hash, 0, data)
	require.NoError(t, err)
	require.True(t, there.Whole)
}

// sharedPhoto makes a job with one shared photo, all of whose bytes are there.
func (b *bench) sharedPhoto(t testing.TB) (owner store.Session, jobID, hash string, data []byte) {
	t.Helper()
	_, owner = b.owner(t)
	jobID, data = b.job(t, owner), wall(t, 1)
	hash = b.photo(t, owner, jobID, "a", data, true)
	b.put(t, owner, jobID, hash, data)
	return owner, jobID, hash, data
}

// TestAPhotoComesInParts sends one in parts over a restart, a part twice and one that begins elsewhere.
func TestAPhotoComesInParts(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	data := wall(t, 1)
	hash := b.photo(t, owner, id, "a", data, true)
	_, helperToken, helper := b.helper(t, owner, id, "Ines", job.Helper)
	_ = helperToken

	there, err := b.PutPhoto(b.ctx, owner, id, hash, 0, data[:1000])
	require.NoError(t, err)
	assert.Equal(t, store.PhotoBytes{Have: 1000}, there)
	_, _, err = b.Photo(helper, id, hash)
	assert.ErrorIs(t, err, store.ErrNotFound, "half a photo is none")
	require.NoError(t, b.Close())
	b.reopen(t)
	there, err = b.PhotoBytes(owner, id, hash)
	require.NoError(t, err)
	assert.Equal(t, store.PhotoBytes{Have: 1000}, there, "what was acknowledged is there after a restart")
	there, err = b.PutPhoto(b.ctx, owner, id, hash, 0, data[:1000])
	assert.ErrorIs(t, err, store.ErrPhotoPlace, "the answer was lost, so it comes again")
	assert.Equal(t, 1000, there.Have, "and it is said where to go on")
	there, err = b.PutPhoto(b.ctx, owner, id, hash, 1000, data[1000:])
	require.NoError(t, err)
	assert.Equal(t, store.PhotoBytes{Have: len(data), Whole: true}, there)
	there, err = b.PutPhoto(b.ctx, owner, id, hash, 1000, data[1000:])
	require.NoError(t, err)
	assert.True(t, there.Whole, "the last part may come twice")
	got, kind, err := b.Photo(helper, id, hash)
	require.NoError(t, err)
	assert.Equal(t, "image/jpeg", kind)
	assert.Equal(t, data, got)
}

// TestOnlyTheAnnouncedPhotoIsStored sends what was not announced, is too long, or carries metadata.
func TestOnlyTheAnnouncedPhotoIsStored(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	data := wall(t, 1)
	hash := b.photo(t, owner, id, "a", data, true)
	other := bytes.Clone(data)
	other[len(other)/2] ^= 1
	_, err := b.PutPhoto(b.ctx, owner, id, hash, 0, other)
	assert.ErrorIs(t, err, store.ErrPhoto, "other bytes of the same length")
	there, err := b.PhotoBytes(owner, id, hash)
	require.NoError(t, err)
	assert.Zero(t, there, "nothing of it is kept, so that the right one can come")
	_, err = b.PutPhoto(b.ctx, owner, id, hash, 0, append(bytes.Clone(data), 0))
	assert.ErrorIs(t, err, store.ErrPhoto, "more bytes than announced")
	b.put(t, owner, id, hash, data)

	located := bytes.Join([][]byte{data[:2], []byte("\xff\xe1\x00\x0cExif\x00\x00here"), data[2:]}, nil)
	bad := b.photo(t, owner, id, "b", located, true)
	_, err = b.PutPhoto(b.ctx, owner, id, bad, 0, located)
	assert.ErrorContains(t, err, "without metadata")
	page := []byte(strings.Repeat("<html>", 200))
	bad = b.photo(t, owner, id, "c", page, true)
	_, err = b.PutPhoto(b.ctx, owner, id, bad, 0, page)
	assert.ErrorIs(t, err, store.ErrPhoto)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("photo/d", "bytes", job.MostPhotoBytes+1)})
	assert.ErrorIs(t, err, job.ErrInvalid, "a photo over the limit is not even announced")
}

func TestWhoMaySendAndSeePhotos(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id, otherJob := b.job(t, owner), b.job(t, owner)
	data, kept := wall(t, 1), wall(t, 2)
	hash := b.photo(t, owner, id, "a", data, true)
	own := b.photo(t, owner, id, "b", kept, false)
	_, _, helper := b.helper(t, owner, id, "Ines", job.Helper)
	leadLink, _, lead := b.helper(t, owner, id, "Bea", job.Lead)
	_, _, elsewhere := b.helper(t, owner, otherJob, "Olek", job.Lead)

	_, err := b.PutPhoto(b.ctx, helper, id, hash, 0, data)
	assert.ErrorIs(t, err, store.ErrForbidden, "a helper sends none")
	_, err = b.PhotoBytes(helper, id, hash)
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.AddPhoto(b.ctx, helper, id, data)
	assert.ErrorIs(t, err, store.ErrForbidden)
	_, err = b.PutPhoto(b.ctx, owner, id, own, 0, kept)
	assert.ErrorIs(t, err, store.ErrNotFound, "a photo that is not shared is not taken")
	_, err = b.PutPhoto(b.ctx, owner, id, store.HashOfPhoto([]byte("x")), 0, []byte("x"))
	assert.ErrorIs(t, err, store.ErrNotFound, "a hash that no photo of the job has")
	_, err = b.PutPhoto(b.ctx, owner, otherJob, hash, 0, data)
	assert.ErrorIs(t, err, store.ErrNotFound, "nor one of another job")
	b.put(t, lead, id, hash, data)
	for _, who := range []store.Session{owner, lead, helper} {
		_, _, err := b.Photo(who, id, hash)
		assert.NoError(t, err, who.Name)
	}
	for _, at := range []string{id, otherJob} {
		_, _, err = b.Photo(elsewhere, at, hash)
		assert.ErrorIs(t, err, store.ErrNotFound, "somebody of another job")
	}
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("photo/a", "shared", false)})
	require.NoError(t, err)
	_, _, err = b.Photo(helper, id, hash)
	assert.ErrorIs(t, err, store.ErrNotFound, "no longer shared")
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("photo/a", "shared", true)})
	require.NoError(t, err)
	require.NoError(t, b.RevokeLink(b.ctx, owner, leadLink.ID))
	_, _, err = b.Photo(lead, id, hash)
	assert.ErrorIs(t, err, store.ErrClosed, "a revoked device gets nothing")
	_, err = b.PutPhoto(b.ctx, lead, id, hash, 0, data)
	assert.ErrorIs(t, err, store.ErrClosed)
	wanted, gone, err := b.Photos(lead)
	require.NoError(t, err)
	assert.Empty(t, wanted)
	assert.Empty(t, gone)
	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	_, _, err = b.Photo(owner, id, hash)
	assert.ErrorIs(t, err, store.ErrNotFound, "the job is deleted")
}

func TestTheThirteenthPhotoIsNotStored(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	for i := range job.MostSharedPhotos {
		data := wall(t, uint8(i))
		b.put(t, owner, id, b.photo(t, owner, id, string(rune('a'+i)), data, true), data)
	}
	data := wall(t, 99)
	hash := b.photo(t, owner, id, "z", data, true)
	_, err := b.PutPhoto(b.ctx, owner, id, hash, 0, data)
	assert.ErrorIs(t, err, store.ErrPhotosFull)
	_, err = b.AddPhoto(b.ctx, owner, id, data)
	assert.ErrorIs(t, err, store.ErrPhotosFull)
	_, err = b.Write(b.ctx, owner, id, []job.Change{job.Put("photo/a", "removed", true)})
	require.NoError(t, err)
	b.put(t, owner, id, hash, data)
}

// TestRemovedPhotosAreSwept removes a photo, restores it within the day, and later. Then the phone sends it again.
func TestRemovedPhotosAreSwept(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	data, part := wall(t, 1), wall(t, 2)
	hash, half := b.photo(t, owner, id, "a", data, true), b.photo(t, owner, id, "b", part, true)
	b.put(t, owner, id, hash, data)
	_, err := b.PutPhoto(b.ctx, owner, id, half, 0, part[:1000])
	require.NoError(t, err)
	set := func(id2 string, removed bool) {
		t.Helper()
		_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("photo/"+id2, "removed", removed)})
		require.NoError(t, err)
	}
	sweep := func() (wanted, gone int) {
		t.Helper()
		w, g, err := b.Photos(owner)
		require.NoError(t, err)
		return len(w), len(g)
	}
	b.now += 10 * day
	set("a", true)
	set("b", true)
	_, _, err = b.Photo(owner, id, hash)
	assert.ErrorIs(t, err, store.ErrNotFound, "a removed photo is not shown")
	b.now += day - 1
	sweep()
	set("a", false)
	_, _, err = b.Photo(owner, id, hash)
	assert.NoError(t, err, "undone within a day")
	set("a", true)
	b.now += day + 10 // the server stamps changes of the same moment one after the other
	wanted, gone := sweep()
	assert.Equal(t, [2]int{0, 0}, [2]int{wanted, gone}, "phones keep it for who restores it")
	assert.Empty(t, b.PhotoKeys(id), "the server has no byte, not of the half one either")
	set("a", false)
	wanted, _ = sweep()
	assert.Equal(t, 1, wanted, "the phone is asked for it again")
	b.put(t, owner, id, hash, data)
	set("a", true)
	b.now += 31 * day
	_, all, err := b.Photos(owner)
	require.NoError(t, err)
	assert.ElementsMatch(t, []store.PhotoGone{{Job: id, Hash: hash}, {Job: id, Hash: half}}, all,
		"phones drop it after thirty days")
}

// TestPhotosAreBackedUp restores a backup with photos, and rebuilds the data from the journal, which has none: then the
// phone is asked for them.
func TestPhotosAreBackedUp(t *testing.T) {
	b := openStore(t)
	owner, id, hash, data := b.sharedPhoto(t)
	copied := filepath.Join(t.TempDir(), "copy.db")
	require.NoError(t, b.Backup(b.ctx, copied))
	later := wall(t, 2)
	b.put(t, owner, id, b.photo(t, owner, id, "b", later, true), later)
	require.NoError(t, b.Close())
	_, err := store.Restore(b.ctx, copied, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	got, _, err := b.Photo(owner, id, hash)
	require.NoError(t, err)
	assert.Equal(t, data, got)

	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, "garlandry.db")))
	_, err = store.Replay(b.ctx, b.dir, b.dir, b.options())
	require.NoError(t, err)
	b.reopen(t)
	wanted, _, err := b.Photos(b.System("test"))
	require.NoError(t, err)
	assert.Len(t, wanted, 2, "the journal has the photos but not their bytes")
	b.put(t, b.System("test"), id, hash, data)
}

func TestAJobTakesItsPhotosWithIt(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	data := wall(t, 1)
	b.put(t, owner, id, b.photo(t, owner, id, "a", data, true), data)
	require.NoError(t, b.DeleteJob(b.ctx, owner, id))
	b.now += 29 * day
	_, err := b.RemoveDeleted()
	require.NoError(t, err)
	assert.NotEmpty(t, b.PhotoKeys(id), "the job can be restored with it")
	b.now += day
	_, err = b.RemoveDeleted()
	require.NoError(t, err)
	assert.Empty(t, b.PhotoKeys(id))
	_, _, err = b.Photos(owner)
	assert.NoError(t, err)
}

// TestADamagedPhotoIsAskedForAgain changes a byte on disk, where the database has no checksum.
func TestADamagedPhotoIsAskedForAgain(t *testing.T) {
	b := openStore(t)
	owner, id, hash, data := b.sharedPhoto(t)
	b.SpoilPhoto(id, hash)
	_, _, err := b.Photo(owner, id, hash)
	assert.ErrorIs(t, err, store.ErrNotFound)
	b.put(t, owner, id, hash, data)
	_, _, err = b.Photo(owner, id, hash)
	assert.NoError(t, err)
}
