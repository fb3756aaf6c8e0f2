package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// Restored is what a restore came to.
type Restored struct {
	Word           string // what was mended of the directory, a sentence; empty: nothing
	Kept           string // the name of the database that was there before; empty if there was none
	Seals          Seals  // what could be said of the backup's seals
	Links, Devices int    // open in the backup and closed again, since they were revoked or ended later
	Held           int    // handed in after the backup was made, and waiting for the owner again
}

// Restore puts a backup in the place of a data directory's database, which no process may have open, and gives every
// log a new epoch, so that phones bring back what they hold beyond it. The backup is checked first: pages, chains of
// hashes and, where the workspace key is at hand, seals. Links that were revoked and devices that were ended stay
// closed. What was handed in for the owner to decide after the backup comes back from the directory's own journal,
// unless it was decided.
func Restore(ctx context.Context, backup, dir string, options Options) (result Restored, err error) {
	options = options.filled()
	if err := ctx.Err(); err != nil {
		return result, err
	}
	if _, err := os.Stat(backup); err != nil {
		return result, fmt.Errorf("restore: %w", err)
	}
	key, beside, err := keyAtHand(dir, backup)
	if err != nil {
		return result, err
	}
	if _, result.Seals, err = verify(backup, key); err != nil {
		return result, fmt.Errorf("restore: %w; nothing was changed; "+
			"take another backup, or make the data anew with: restore --journal", err)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return result, fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	if result.Word, err = private(dir); err != nil {
		return result, err
	}
	closed, err := readClosings(dir)
	if err != nil {
		return result, err
	}
	path := filepath.Join(dir, databaseName)
	before, release, err := lockOut(path)
	if err != nil {
		return result, err
	}
	defer func() { err = errors.Join(err, release()) }()
	r := restoring{dir: dir, seals: result.Seals, store: &Store{dir: dir, options: options, key: key, closed: closed}}
	if err := r.learn(before); err != nil {
		return result, err
	}
	temp, err := r.renewed(backup, &result)
	if err != nil {
		return result, err
	}
	defer os.Remove(temp) // gone already if all went well
	if beside && result.Seals == SealsGood {
		if err := writeFile(filepath.Join(dir, keyName), key); err != nil {
			return result, err
		}
	}
	if _, err := os.Stat(path); err == nil {
		result.Kept = path + ".before-restore-" + time.UnixMilli(options.Now()).UTC().Format("20060102-150405.000")
		if err := os.Rename(path, result.Kept); err != nil {
			return Restored{}, fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
		}
	}
	if err := os.Rename(temp, path); err != nil {
		return result, fmt.Errorf("%w: %s: %w; the earlier database is %s", ErrDirectory, path, err, result.Kept)
	}
	return result, flushDir(dir)
}

// lockOut keeps other processes away from the database, and gives it, if there is one; a damaged one need not be.
func lockOut(path string) (*bbolt.DB, func() error, error) {
	nothing := func() error { return nil }
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, nothing, nil
	}
	db, err := openDatabase(path)
	if errors.Is(err, ErrDamaged) {
		return nil, nothing, nil
	}
	if err != nil {
		return nil, nil, err
	}
	return db, db.Close, nil
}

// restoring makes a database of a backup.
type restoring struct {
	dir   string
	seals Seals
	store *Store
	story heldStory

	devices map[string]string // device id: whose it was
}

// learn takes over from the database that was there, and from the journal, what the backup cannot know: what was
// closed, whose device ids are, and what was handed in.
func (r *restoring) learn(before *bbolt.DB) error {
	r.story, r.devices = heldStory{}, map[string]string{}
	if before == nil {
		return nil
	}
	defer func() { _ = recover() }() // a damaged database tells what it can
	var closed []Closed
	err := before.View(func(tx *bbolt.Tx) (err error) {
		if tx.Bucket(bucketMeta) == nil {
			return nil
		}
		if closed, err = r.store.closedRows(tx); err != nil {
			return err
		}
		if b := tx.Bucket(bucketDevices); b != nil {
			err = b.ForEach(func(device, owner []byte) error {
				r.devices[string(device)] = string(owner)
				return nil
			})
			if err != nil {
				return err
			}
		}
		return eachLog(tx, func(l *boltLedger, _ server.Head) error {
			all, err := l.held()
			for _, h := range all {
				r.story.tell(line{journalLine: journalLine{Log: l.log, Held: &h}})
			}
			return err
		})
	})
	if err != nil && !errors.Is(err, ErrDamaged) {
		return err
	}
	return r.store.closed.add(closed...)
}

// renewed copies the backup into the directory, gives its logs new epochs, and lays over it what came later.
func (r *restoring) renewed(backup string, result *Restored) (string, error) {
	temp, err := copyFile(backup, r.dir)
	if err != nil {
		return "", err
	}
	db, err := openDatabase(temp)
	if err != nil {
		return "", errors.Join(err, os.Remove(temp))
	}
	err = db.Update(func(tx *bbolt.Tx) error { return r.renew(tx, result) })
	if err = errors.Join(err, db.Close()); err != nil {
		return "", errors.Join(err, os.Remove(temp))
	}
	return temp, nil
}

func (r *restoring) renew(tx *bbolt.Tx, result *Restored) (err error) {
	err = eachLog(tx, func(l *boltLedger, head server.Head) error {
		head.Epoch = r.store.options.NewID()
		head.Safe = min(head.Safe, head.Seq)
		return errors.Join(
			l.SetHead(head),
			l.bucket.Delete(keyInfo),
			l.bucket.Delete(keySnapshot),
		) // made anew from the records
	})
	if err != nil {
		return err
	}
	if err = r.bind(tx); err != nil {
		return err
	}
	err = ownHeld(r.dir, r.story, func(log string) ([]server.Held, error) {
		if l, found := r.store.ledger(tx, log); found {
			return l.held()
		}
		return nil, nil
	})
	if err != nil {
		return err
	}
	if result.Held, err = r.story.merge(r.store, tx); err != nil {
		return err
	}
	if result.Links, result.Devices, err = r.store.closeAgain(tx); err != nil {
		return err
	}
	meta := tx.Bucket(bucketMeta)
	if r.seals != SealsGood { // the next start seals it
		err = meta.Delete(keyPrint)
	}
	return errors.Join(err, meta.Delete(keyHeldTold))
}

// bind keeps device ids with those they belonged to: else anybody could write under one that the backup does not know
// yet.
func (r *restoring) bind(tx *bbolt.Tx) error {
	b, err := tx.CreateBucketIfNotExists(bucketDevices)
	if err != nil {
		return fmt.Errorf("bind devices: %w", err)
	}
	for device, owner := range r.devices {
		if b.Get([]byte(device)) == nil {
			err = errors.Join(err, b.Put([]byte(device), []byte(owner)))
		}
	}
	return err
}

func copyFile(from, dir string) (string, error) {
	source, err := os.Open(from)
	if err != nil {
		return "", fmt.Errorf("restore: %w", err)
	}
	target, err := os.CreateTemp(dir, ".restore-*")
	if err != nil {
		return "", errors.Join(fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err), source.Close())
	}
	_, err = io.Copy(target, source)
	if err = errors.Join(err, target.Sync(), target.Close(), source.Close()); err != nil {
		return "", errors.Join(fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err), os.Remove(target.Name()))
	}
	return target.Name(), nil
}
