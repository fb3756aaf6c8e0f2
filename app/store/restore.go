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

// Restored is the result of [Restore].
type Restored struct {
	Repair         string // what was repaired in the directory, a sentence; empty: nothing
	Kept           string // the new name of the earlier database; empty if there was none
	Seals          Seals  // the result of checking the backup's seals
	Links, Devices int    // open in the backup and closed again, as they were revoked or ended later
	Held           int    // sent after the backup was made, and waiting for the owner again
}

// Restore replaces a data directory's database, which no process may have open, with a backup. Every log gets a new
// epoch, and phones then return what the backup lacks. The backup is checked first: pages, hash chains and, with the
// workspace key, seals. Revoked links and ended devices stay closed. What was sent after the backup waits again,
// from the directory's own journal, unless the owner had decided.
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
			"use another backup, or rebuild the data with: restore --journal", err)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return result, fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	if result.Repair, err = private(dir); err != nil {
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

// lockOut opens the database, which keeps other processes out. It returns nil if there is none or it is damaged.
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

// restoring is one restore of a backup.
type restoring struct {
	dir     string
	seals   Seals
	store   *Store
	history heldHistory

	devices map[string]string // device id: whose it was
}

// learn copies from the earlier database what the backup cannot know: what was closed, who owns the device ids, and
// what was sent.
func (r *restoring) learn(before *bbolt.DB) error {
	r.history, r.devices = heldHistory{}, map[string]string{}
	if before == nil {
		return nil
	}
	defer func() { _ = recover() }() // reading a damaged database may panic; keep what was read
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
				r.history.add(line{journalLine: journalLine{Log: l.log, Held: &h}})
			}
			return err
		})
	})
	if err != nil && !errors.Is(err, ErrDamaged) {
		return err
	}
	return r.store.closed.add(closed...)
}

// renewed copies the backup into the directory, gives its logs new epochs, and adds what came later.
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
	err = ownHeld(r.dir, r.history, func(log string) ([]server.Held, error) {
		if l, found := r.store.ledger(tx, log); found {
			return l.held()
		}
		return nil, nil
	})
	if err != nil {
		return err
	}
	if result.Held, err = r.history.merge(r.store, tx); err != nil {
		return err
	}
	if result.Links, result.Devices, err = r.store.closeAgain(tx); err != nil {
		return err
	}
	meta := tx.Bucket(bucketMeta)
	if r.seals != SealsGood { // the next start seals it
		err = meta.Delete(keyFingerprint)
	}
	return errors.Join(err, meta.Delete(keyHeldJournaled))
}

// bind restores the owners of device ids. Without it anybody could write under an id that the backup does not know.
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
