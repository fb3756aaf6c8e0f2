package store_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"
)

// logFile is a log in a closed database file. It edits the log as somebody without the key could.
type logFile struct {
	t      *testing.T
	id     string
	bucket *bbolt.Bucket
	rng    *rand.Rand
}

func (l logFile) recs() *bbolt.Bucket { return l.bucket.Bucket([]byte("recs")) }

func (l logFile) count() uint64 {
	key, _ := l.recs().Cursor().Last()
	return binary.BigEndian.Uint64(key)
}

func place(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

func (l logFile) get(n uint64) (hash string, rec job.Rec) {
	raw := l.recs().Get(place(n))
	require.Greater(l.t, len(raw), 32)
	require.NoError(l.t, json.Unmarshal(raw[32:], &rec))
	return string(raw[:32]), rec
}

func (l logFile) put(n uint64, hash string, rec job.Rec) {
	text, err := json.Marshal(rec)
	require.NoError(l.t, err)
	l.raw(n, hash, text)
}

func (l logFile) raw(n uint64, hash string, text []byte) {
	require.NoError(l.t, l.recs().Put(place(n), append([]byte(hash), text...)))
}

func (l logFile) head(edit func(*server.Head)) {
	var head server.Head
	require.NoError(l.t, json.Unmarshal(l.bucket.Get([]byte("head")), &head))
	edit(&head)
	text, err := json.Marshal(head)
	require.NoError(l.t, err)
	require.NoError(l.t, l.bucket.Put([]byte("head"), text))
}

// rechain recomputes the chain hashes and the head from the records, which needs no key.
func (l logFile) rechain() {
	hash, head := "", server.Head{}
	for n := uint64(1); n <= l.count(); n++ {
		_, rec := l.get(n)
		body, err := json.Marshal(struct {
			Log       string     `json:"log"`
			Op        job.Op     `json:"op"`
			Effective int64      `json:"eff"`
			Author    job.Author `json:"by"`
		}{l.id, rec.Op, rec.Effective, rec.Author})
		require.NoError(l.t, err)
		sum := sha256.Sum256(append([]byte(hash+"\n"), body...))
		hash = hex.EncodeToString(sum[:16])
		l.put(n, hash, rec)
		head.Digest += sync.Digest(rec)
		head.Bytes += uint64(len(body))
	}
	l.head(func(h *server.Head) { h.Hash, h.Digest, h.Bytes = hash, head.Digest, head.Bytes })
}

// some returns the place of a random record.
func (l logFile) some() uint64 { return 1 + l.rng.Uint64N(l.count()) }

func (l logFile) edit(change func(*job.Rec)) {
	n := l.some()
	hash, rec := l.get(n)
	change(&rec)
	l.put(n, hash, rec)
}

// edits alter a log but keep the file a valid database with valid JSON.
var edits = []struct {
	name string
	do   func(l logFile)
}{
	{"value", func(l logFile) {
		l.edit(func(r *job.Rec) { r.Value = fmt.Appendf(nil, `"forged %d"`, l.rng.Uint64()) })
	}},
	{"author's name", func(l logFile) { l.edit(func(r *job.Rec) { r.Author.Name += "x" }) }},
	{"author's role", func(l logFile) { l.edit(func(r *job.Rec) { r.Author.Role += "x" }) }},
	{"stamp", func(l logFile) { l.edit(func(r *job.Rec) { r.Effective += 1 + l.rng.Int64N(1e6) }) }},
	{"delta", func(l logFile) { l.edit(func(r *job.Rec) { r.Delta += 1 + l.rng.Int64N(100) }) }},
	{"device", func(l logFile) { l.edit(func(r *job.Rec) { r.Device += "x" }) }},
	{"number", func(l logFile) { l.edit(func(r *job.Rec) { r.Number += 1000 }) }},
	{"id", func(l logFile) { l.edit(func(r *job.Rec) { r.ID += "x" }) }},
	{"phone's clock", func(l logFile) { l.edit(func(r *job.Rec) { r.Wall-- }) }},
	{"seal", func(l logFile) { l.edit(func(r *job.Rec) { r.MAC = fmt.Sprintf("%032x", l.rng.Uint64()) }) }},
	{"no seal", func(l logFile) { l.edit(func(r *job.Rec) { r.MAC = "" }) }},
	{"place", func(l logFile) { l.edit(func(r *job.Rec) { r.Seq++ }) }},
	{"spelling", func(l logFile) {
		n := l.some()
		hash, rec := l.get(n)
		text, err := json.Marshal(rec)
		require.NoError(l.t, err)
		l.raw(n, hash, append([]byte(`{"more":1,`), text[1:]...))
	}},
	{"chain hash", func(l logFile) {
		n := l.some()
		_, rec := l.get(n)
		l.put(n, fmt.Sprintf("%032x", l.rng.Uint64()), rec)
	}},
	{"order", func(l logFile) {
		n := 1 + l.rng.Uint64N(l.count()-1)
		first, a := l.get(n)
		second, b := l.get(n + 1)
		a.Seq, b.Seq = n+1, n
		l.put(n, first, b)
		l.put(n+1, second, a)
	}},
	{"removal", func(l logFile) { require.NoError(l.t, l.recs().Delete(place(l.some()))) }},
	{"removal of the last", func(l logFile) {
		n := l.count()
		require.NoError(l.t, l.recs().Delete(place(n)))
		l.head(func(h *server.Head) { h.Seq, h.Count = n-1, n-1 })
	}},
	{"duplication", func(l logFile) {
		hash, rec := l.get(l.some())
		rec.Seq = l.count() + 1
		l.put(rec.Seq, hash, rec)
		l.head(func(h *server.Head) { h.Seq, h.Count = rec.Seq, rec.Seq })
	}},
	{"head's place", func(l logFile) { l.head(func(h *server.Head) { h.Seq-- }) }},
	{"head's count", func(l logFile) { l.head(func(h *server.Head) { h.Count += 1 + l.rng.Uint64N(9) }) }},
	{"head's digest", func(l logFile) { l.head(func(h *server.Head) { h.Digest ^= 1 << l.rng.UintN(64) }) }},
	{"head's bytes", func(l logFile) { l.head(func(h *server.Head) { h.Bytes++ }) }},
	{"head's hash", func(l logFile) { l.head(func(h *server.Head) { h.Hash = fmt.Sprintf("%032x", l.rng.Uint64()) }) }},
	{"head's safe place", func(l logFile) { l.head(func(h *server.Head) { h.Safe = h.Seq + 1 }) }},
	{"index of ids", func(l logFile) {
		_, rec := l.get(l.some())
		require.NoError(l.t, l.bucket.Bucket([]byte("ids")).Put([]byte(rec.ID), place(l.count()+1)))
	}},
	{"hole in the index of ids", func(l logFile) {
		_, rec := l.get(l.some())
		require.NoError(l.t, l.bucket.Bucket([]byte("ids")).Delete([]byte(rec.ID)))
	}},
	{"index of numbers", func(l logFile) {
		key, _ := l.bucket.Bucket([]byte("numbers")).Cursor().First()
		require.NoError(l.t, l.bucket.Bucket([]byte("numbers")).Put(bytes.Clone(key), []byte("another")))
	}},
	{"value, with new hashes", func(l logFile) {
		l.edit(func(r *job.Rec) { r.Value = []byte(`"forged"`) })
		l.rechain()
	}},
	{"author, with new hashes", func(l logFile) {
		l.edit(func(r *job.Rec) { r.Author.Name += "x" })
		l.rechain()
	}},
	{"stamp, with new hashes", func(l logFile) {
		l.edit(func(r *job.Rec) { r.Effective++ })
		l.rechain()
	}},
}

// TestAlteredDatabaseIsNotRestored alters a database in 160 ways, each a valid bbolt file with valid JSON.
func TestAlteredDatabaseIsNotRestored(t *testing.T) {
	const seed, ways = 20280509, 160
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	_, _, helper := b.helper(t, owner, id, "Ines", job.Helper)
	for i := range 12 {
		b.now += hour
		_, err := b.Write(b.ctx, []store.Session{owner, helper}[i%2], id,
			[]job.Change{job.Count("card/make/door", int64(i+1)), job.Put("card/look", "done", i%3 == 0)})
		require.NoError(t, err)
	}
	good := filepath.Join(t.TempDir(), "good.db")
	require.NoError(t, b.Backup(b.ctx, good))
	require.NoError(t, b.Close())
	found := 0
	for way := range ways {
		edit := edits[way%len(edits)]
		file := filepath.Join(t.TempDir(), "altered.db")
		data, err := os.ReadFile(good)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(file, data, 0o600))
		db, err := bbolt.Open(file, 0o600, nil)
		require.NoError(t, err)
		require.NoError(t, db.Update(func(tx *bbolt.Tx) error {
			edit.do(logFile{t, id, tx.Bucket([]byte("logs")).Bucket([]byte(id)), rand.New(rand.NewPCG(seed, uint64(way)))})
			return nil
		}))
		require.NoError(t, db.Close())
		_, err = store.Restore(b.ctx, file, b.dir, b.options())
		if assert.Error(t, err, "%s (seed %d, way %d) was accepted", edit.name, seed, way) {
			found++
			assert.ErrorIs(t, err, store.ErrDamaged, "%s (seed %d, way %d)", edit.name, seed, way)
			assert.ErrorContains(t, err, "log "+id, "%s (seed %d, way %d)", edit.name, seed, way)
		}
	}
	t.Logf("%d of %d altered databases were refused", found, ways)

	restored, err := store.Restore(b.ctx, good, b.dir, b.options())
	require.NoError(t, err, "the unaltered backup is restored")
	assert.Equal(t, store.SealsGood, restored.Seals)
	b.reopen(t)
	assert.Equal(t, 78, b.read(t, id).Made("card/make/door"))
}

// A server refuses to back up an altered database and says what to do.
func TestAnAlteredDatabaseIsNotBackedUp(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	require.NoError(t, b.Close())
	path := filepath.Join(b.dir, store.DatabaseName)
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	db, err := bbolt.Open(path, 0o600, nil)
	require.NoError(t, err)
	require.NoError(t, db.Update(func(tx *bbolt.Tx) error {
		l := logFile{t, id, tx.Bucket([]byte("logs")).Bucket([]byte(id)), nil}
		hash, rec := l.get(2)
		rec.Value = []byte(`"forged"`)
		l.put(2, hash, rec)
		return nil
	}))
	require.NoError(t, db.Close())
	b.reopen(t)
	copied := filepath.Join(t.TempDir(), "copy.db")
	err = b.Backup(b.ctx, copied)
	require.ErrorIs(t, err, store.ErrDamaged)
	assert.ErrorContains(t, err, "log "+id+", record 2")
	assert.ErrorContains(t, err, "--journal")
	assert.NoFileExists(t, copied)
	require.NoError(t, b.Close())
	require.NoError(t, os.WriteFile(path, whole, 0o600))
	b.reopen(t)
}

// With a new key the store seals the data again, so that backups still work. Restoring an older backup reports that its
// seals cannot be checked, and seals it too.
func TestALostKeyDoesNotStopBackups(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	old := filepath.Join(t.TempDir(), "old.db")
	require.NoError(t, b.Backup(b.ctx, old))
	require.NoError(t, b.Close())
	require.NoError(t, os.Remove(filepath.Join(b.dir, store.KeyName)))
	b.reopen(t)
	assert.True(t, b.NewKey())
	require.Len(t, b.Repairs(), 1)
	assert.Contains(t, b.Repairs()[0], "sealed")
	_, err := b.Write(b.ctx, owner, id, []job.Change{job.Put("brief", "title", "With another key")})
	require.NoError(t, err)
	require.NoError(t, b.Backup(b.ctx, filepath.Join(t.TempDir(), "new.db")))
	require.NoError(t, b.Close())
	restored, err := store.Restore(b.ctx, old, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, store.SealsOtherKey, restored.Seals)
	b.reopen(t)
	assert.Equal(t, "Reading room reopening", b.read(t, id).Brief.Title)
	require.NoError(t, b.Backup(b.ctx, filepath.Join(t.TempDir(), "again.db")))
	assert.NotEmpty(t, b.Repairs())
	require.NoError(t, b.Close())
	b.reopen(t)
	assert.Empty(t, b.Repairs(), "it is sealed only once")
}

// A database of an earlier build without byte counts can be opened, backed up and restored.
func TestDatabaseWithoutByteCounts(t *testing.T) {
	b := openStore(t)
	_, owner := b.owner(t)
	id := b.job(t, owner)
	require.NoError(t, b.Close())
	path := filepath.Join(b.dir, store.DatabaseName)
	db, err := bbolt.Open(path, 0o600, nil)
	require.NoError(t, err)
	require.NoError(t, db.Update(func(tx *bbolt.Tx) error {
		for _, log := range []string{id, id + sync.OwnSuffix} {
			logFile{t, log, tx.Bucket([]byte("logs")).Bucket([]byte(log)), nil}.head(func(h *server.Head) { h.Bytes = 0 })
		}
		return tx.Bucket([]byte("meta")).Delete([]byte("keyprint"))
	}))
	require.NoError(t, db.Close())
	old, err := os.ReadFile(path)
	require.NoError(t, err)
	early := filepath.Join(t.TempDir(), "early.db")
	require.NoError(t, os.WriteFile(early, old, 0o600))
	restored, err := store.Restore(b.ctx, early, b.dir, b.options())
	require.NoError(t, err)
	assert.Equal(t, store.SealsGood, restored.Seals)
	b.reopen(t)
	assert.Empty(t, b.Repairs())
	require.NoError(t, b.Backup(b.ctx, filepath.Join(t.TempDir(), "copy.db")))
	require.NoError(t, b.Look(id, func(l server.Ledger) error {
		head, err := l.Head()
		assert.Positive(t, head.Bytes)
		return err
	}))
}
