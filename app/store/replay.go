package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// Replayed is the result of [Replay].
type Replayed struct {
	Operations int      // in the new database
	Jobs       int      //
	Unreadable []string // lines left out, as file and line number: cut off by a power failure, or damaged
	CutOff     bool     // the last line of the last file is one of them
	Held       int      // operations that wait for the owner, as before
	Refused    []string // operations that this build refuses, with the reason
	Repair     string   // what was repaired in the directory, a sentence; empty: nothing
	NewKey     bool     // there was no workspace key, so one was made
}

// Replay rebuilds a data directory's database from a journal: a directory with its files, or one of them. Operations
// keep stamp and author, as when a phone heals a restored server. The logs get a new epoch, and phones then return what
// the journal lacks. If an operation is there several times, its last line counts. What was held for the owner waits
// again under its author's name, unless the owner had decided. A journal has no helper links and no devices. What was
// closed for good stays closed.
//
// Replay overwrites nothing: an existing database gives [fs.ErrExist]. The new one is checked before it gets its name.
// A journal from another directory is copied, with the workspace key beside it.
func Replay(ctx context.Context, journal, dir string, options Options) (Replayed, error) {
	options = options.filled()
	path := filepath.Join(dir, databaseName)
	if _, err := os.Stat(path); err == nil {
		return Replayed{}, fmt.Errorf("replay: %s: %w; move it away or name another directory, nothing was changed", path,
			fs.ErrExist)
	}
	files, err := journalFiles(journal)
	if err != nil {
		return Replayed{}, err
	}
	logs, history, result, err := readJournal(files)
	if err != nil {
		return Replayed{}, err
	}
	if len(logs) == 0 && len(history) == 0 {
		return result, fmt.Errorf("replay %s: %w: no operation in it can be read; nothing was changed", journal, ErrDamaged)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return result, fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	if result.Repair, err = private(dir); err != nil {
		return result, err
	}
	along, err := foreign(files, dir)
	if err != nil {
		return result, err
	}
	key, made, err := keyFor(along, dir, options)
	if err != nil {
		return result, err
	}
	result.NewKey = made
	temp, err := replayed(ctx, logs, history, dir, key, options, &result)
	if err != nil {
		return result, err
	}
	defer os.Remove(temp) // the linked name stays
	if _, err := os.Stat(path); err == nil {
		return result, fmt.Errorf("replay: %s: %w: another process made it meanwhile; it was left alone", path, fs.ErrExist)
	}
	if err := bring(withClosed(along, dir), dir); err != nil {
		return result, err
	}
	return result, publish(temp, path)
}

// foreign returns the files if they are from another directory, nil if from this one. It refuses a second journal in a
// directory that has its own.
func foreign(files []string, dir string) ([]string, error) {
	there, err := os.Stat(filepath.Dir(files[0]))
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	here, err := os.Stat(dir)
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	if os.SameFile(there, here) {
		return nil, nil
	}
	own, err := filepath.Glob(filepath.Join(escapeGlob(dir), "ops-*.ndjson"))
	if err == nil && len(own) > 0 {
		err = fmt.Errorf("%s has a journal of its own: %w; replay that one, or name an empty directory; nothing was changed",
			dir, fs.ErrExist)
	}
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	return files, nil
}

// withClosed adds the closed.ndjson beside a journal from elsewhere, unless the directory has one.
func withClosed(along []string, dir string) []string {
	if len(along) == 0 {
		return nil
	}
	from := filepath.Join(filepath.Dir(along[0]), closedName)
	if _, err := os.Stat(from); err != nil {
		return along
	}
	if _, err := os.Stat(filepath.Join(dir, closedName)); err == nil {
		return along
	}
	return append(along[:len(along):len(along)], from)
}

// keyFor reads the directory's workspace key, or copies the one beside a journal from elsewhere, or makes one.
func keyFor(along []string, dir string, options Options) (key []byte, made bool, err error) {
	path := filepath.Join(dir, keyName)
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) && len(along) > 0 {
		found, err := os.ReadFile(filepath.Join(filepath.Dir(along[0]), keyName))
		if err == nil {
			err = writeFile(path, found)
		}
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, false, fmt.Errorf("replay: copy the workspace key: %w", err)
		}
	}
	return workspaceKey(path, options.Random)
}

// bring copies files into the directory.
func bring(files []string, dir string) error {
	for _, name := range files {
		temp, err := copyFile(name, dir)
		if err != nil {
			return err
		}
		if err := os.Rename(temp, filepath.Join(dir, filepath.Base(name))); err != nil {
			return errors.Join(fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err), os.Remove(temp))
		}
	}
	return flushDir(dir)
}

// replayed makes the new database under another name, and checks it.
func replayed(ctx context.Context, logs map[string]map[string]line, history heldHistory, dir string, key []byte,
	options Options, result *Replayed) (temp string, err error) {
	file, err := os.CreateTemp(dir, ".replay-*")
	if err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	temp = file.Name()
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(temp))
		}
	}()
	if err := file.Close(); err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, temp, err)
	}
	db, err := openDatabase(temp)
	if err != nil {
		return "", err
	}
	r := replaying{store: &Store{options: options, db: db, key: key}, ctx: ctx, result: result}
	if err := errors.Join(r.all(logs), r.hold(history), db.Close()); err != nil {
		return "", fmt.Errorf("replay: %w", err)
	}
	heads, _, err := verify(temp, key)
	if err != nil {
		return "", fmt.Errorf("replay: %w", err)
	}
	held := 0
	for _, head := range heads {
		held += int(head.Count)
	}
	if held != result.Operations {
		return "", fmt.Errorf("replay: %w: %d operations were written, %d are there", ErrDamaged, result.Operations, held)
	}
	return temp, nil
}

// replaying writes a journal into a database.
type replaying struct {
	store  *Store
	ctx    context.Context
	result *Replayed
}

func (r *replaying) all(logs map[string]map[string]line) error {
	if err := r.store.db.Update(prepare); err != nil {
		return err
	}
	jobs := map[string]int64{} // when each was made
	names := make([]string, 0, len(logs))
	for log, lines := range logs {
		names = append(names, log)
		_, first := recsInOrder(lines)
		if made, known := jobs[jobOf(log)]; !known || first < made {
			jobs[jobOf(log)] = first
		}
	}
	slices.Sort(names)
	r.result.Jobs = len(jobs)
	if err := r.store.db.Update(func(tx *bbolt.Tx) error { return r.jobs(tx, jobs) }); err != nil {
		return err
	}
	for _, log := range names {
		recs, _ := recsInOrder(logs[log])
		for len(recs) > 0 {
			if err := r.ctx.Err(); err != nil {
				return err
			}
			part := recs[:min(len(recs), sync.MaxHeal)]
			recs = recs[len(part):]
			if err := r.store.db.Update(func(tx *bbolt.Tx) error { return r.heal(tx, log, part) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// hold restores what waits for the owner, and notes that the journal has all of it.
func (r *replaying) hold(history heldHistory) error {
	return r.store.db.Update(func(tx *bbolt.Tx) (err error) {
		if r.result.Held, err = history.merge(r.store, tx); err != nil {
			return err
		}
		meta := tx.Bucket(bucketMeta)
		return errors.Join(meta.Put(keyHeldJournaled, []byte{1}),
			meta.Put(keyFingerprint, []byte(fingerprintOf(r.store.key))))
	})
}

func (r *replaying) jobs(tx *bbolt.Tx, made map[string]int64) error {
	for id, at := range made {
		if err := r.store.makeJob(tx, Session{ID: "journal"}, id, at); err != nil {
			return err
		}
	}
	return nil
}

// heal returns records to the log and counts the results.
func (r *replaying) heal(tx *bbolt.Tx, log string, recs []job.Rec) error {
	l, found := r.store.ledger(tx, log)
	if !found {
		return notFound("log", log)
	}
	acks, err := healInto(l, recs, r.store.options.Now())
	for _, a := range acks {
		if a.Result == sync.OK {
			r.result.Operations++
		} else {
			r.result.Refused = append(r.result.Refused, a.ID+": "+a.Why)
		}
	}
	return err
}

// healInto returns records to a log, as if the owner's phone healed a restored server.
func healInto(l *boltLedger, recs []job.Rec, now int64) ([]sync.Ack, error) {
	head, err := l.Head()
	if err != nil {
		return nil, err
	}
	owner := server.Session{ID: "journal", Author: job.Author{Role: job.Owner}}
	req := sync.Request{V: sync.WireVersion, Device: "journal", Now: now,
		Cursor: sync.Cursor{Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash}, Heal: recs, Max: 1}
	resp, err := server.Serve(l, owner, req, now)
	return resp.Acks, err
}
