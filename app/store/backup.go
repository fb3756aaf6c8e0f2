package store

import (
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// Backup writes a hot copy of the database to the path while work goes on, opens it again, checks every page, and only
// then gives it its name. A file that is there already is left alone and is an error. Logs then know up to where they
// are safe. The workspace key and the journal are not in it.
func (s *Store) Backup(ctx context.Context, path string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if _, err := os.Stat(path); err == nil {
		return fmt.Errorf("backup %s: %w; give another name, nothing was changed", path, fs.ErrExist)
	}
	temp, err := s.copyTo(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer os.Remove(temp) // gone already if all went well
	safe, err := verify(temp)
	if err != nil {
		return fmt.Errorf("backup %s: %w", path, err)
	}
	if err := os.Rename(temp, path); err != nil {
		return fmt.Errorf("backup %s: %w", path, err)
	}
	if err := flushDir(filepath.Dir(path)); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error { return s.markSafe(tx, safe) })
}

func (s *Store) copyTo(dir string) (string, error) {
	file, err := os.CreateTemp(dir, ".backup-*")
	if err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	err = s.db.View(func(tx *bbolt.Tx) error {
		_, err := tx.WriteTo(file)
		return err
	})
	if err = errors.Join(err, file.Sync(), file.Close()); err != nil {
		return "", errors.Join(fmt.Errorf("%w: copy to %s: %w", ErrDirectory, dir, err), os.Remove(file.Name()))
	}
	return file.Name(), nil
}

// verify opens a copy read-only, checks its pages and counts its logs; it gives the head of each.
func verify(path string) (heads map[string]sync.Head, err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			heads, err = nil, fmt.Errorf("%w: %s: %v", ErrDamaged, path, p)
		}
	}()
	db, err := bbolt.Open(path, 0o600, &bbolt.Options{ReadOnly: true, PreLoadFreelist: true, Timeout: lockWait})
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %w", ErrDamaged, path, err)
	}
	heads = map[string]sync.Head{}
	err = db.View(func(tx *bbolt.Tx) error {
		if err := tx.ForEach(func(_ []byte, b *bbolt.Bucket) error { return readAll(b) }); err != nil {
			return err
		}
		for fault := range tx.Check() {
			return fmt.Errorf("%w: %s: %w", ErrDamaged, path, fault)
		}
		if err := checkVersion(tx); err != nil {
			return fmt.Errorf("%w: %s: %w", ErrDamaged, path, err)
		}
		return eachLog(tx, func(l *boltLedger, head sync.Head) error {
			if n := l.bucket.Bucket(bucketRecs).Stats().KeyN; uint64(n) != head.Count {
				return fmt.Errorf("%w: log %s has %d records, its head says %d", ErrDamaged, l.log, n, head.Count)
			}
			heads[l.log] = head
			return nil
		})
	})
	return heads, errors.Join(err, db.Close())
}

// eachLog goes through the logs of the database, with their heads.
func eachLog(tx *bbolt.Tx, do func(l *boltLedger, head sync.Head) error) error {
	logs := tx.Bucket(bucketLogs)
	return logs.ForEachBucket(func(name []byte) error {
		l := &boltLedger{log: string(name), bucket: logs.Bucket(name)}
		head, err := l.Head()
		if err != nil {
			return err
		}
		return do(l, head)
	})
}

// readAll looks at every key of a bucket. bbolt's own check runs where a page that lies nowhere ends the process, so what
// can be read has to be known before.
func readAll(b *bbolt.Bucket) error {
	return b.ForEach(func(key, value []byte) error {
		if value == nil {
			return readAll(b.Bucket(key))
		}
		crc32.ChecksumIEEE(key) // reads every byte
		crc32.ChecksumIEEE(value)
		return nil
	})
}

func (s *Store) markSafe(tx *bbolt.Tx, heads map[string]sync.Head) error {
	for log, copied := range heads {
		l, found := s.ledger(tx, log)
		if !found {
			continue
		}
		head, err := l.Head()
		if err != nil {
			return err
		}
		if head.Epoch == copied.Epoch && head.Safe < copied.Seq {
			head.Safe = copied.Seq
			if err := l.SetHead(head); err != nil {
				return err
			}
		}
	}
	return nil
}

// Restore puts a backup in the place of a data directory's database, which no process may have open, and gives every log
// a new epoch, so that phones bring back what they hold beyond it. The database that was there is kept under the name
// given back, empty if there was none.
func Restore(ctx context.Context, backup, dir string, options Options) (kept string, err error) {
	options = options.filled()
	if err := ctx.Err(); err != nil {
		return "", err
	}
	if _, err := os.Stat(backup); err != nil {
		return "", fmt.Errorf("restore: %w", err)
	}
	if _, err := verify(backup); err != nil {
		return "", fmt.Errorf("restore: %w; nothing was changed", err)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	path := filepath.Join(dir, databaseName)
	release, err := lockOut(path)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, release()) }()
	temp, err := renewed(backup, dir, options)
	if err != nil {
		return "", err
	}
	defer os.Remove(temp) // gone already if all went well
	if _, err := os.Stat(path); err == nil {
		kept = path + ".before-restore-" + time.UnixMilli(options.Now()).UTC().Format("20060102-150405.000")
		if err := os.Rename(path, kept); err != nil {
			return "", fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
		}
	}
	if err := os.Rename(temp, path); err != nil {
		return kept, fmt.Errorf("%w: %s: %w; the earlier database is %s", ErrDirectory, path, err, kept)
	}
	return kept, flushDir(dir)
}

// lockOut keeps other processes away from the database, if there is one; a damaged one need not be.
func lockOut(path string) (func() error, error) {
	nothing := func() error { return nil }
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nothing, nil
	}
	db, err := openDatabase(path)
	if errors.Is(err, ErrDamaged) {
		return nothing, nil
	}
	if err != nil {
		return nil, err
	}
	return db.Close, nil
}

// renewed copies the backup into the directory and gives its logs new epochs.
func renewed(backup, dir string, options Options) (string, error) {
	temp, err := copyFile(backup, dir)
	if err != nil {
		return "", err
	}
	db, err := openDatabase(temp)
	if err != nil {
		return "", errors.Join(err, os.Remove(temp))
	}
	err = db.Update(func(tx *bbolt.Tx) error {
		return eachLog(tx, func(l *boltLedger, head sync.Head) error {
			head.Epoch = options.NewID()
			head.Safe = min(head.Safe, head.Seq)
			return l.SetHead(head)
		})
	})
	if err = errors.Join(err, db.Close()); err != nil {
		return "", errors.Join(err, os.Remove(temp))
	}
	return temp, nil
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
