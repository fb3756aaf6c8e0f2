package store

import (
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// Backup copies the database to the path while work goes on. It opens the copy, checks every page, and only then gives
// it its name. It never overwrites a file. Afterwards each log's head says up to where it is backed up. The backup
// holds shared photos, but neither the workspace key nor the journal.
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
	safe, _, err := verify(temp, s.key)
	if err != nil {
		return fmt.Errorf("backup %s: %w; no backup was made; %s", path, err, s.recoveryHint())
	}
	if err := os.Rename(temp, path); err != nil {
		return fmt.Errorf("backup %s: %w", path, err)
	}
	if err := flushDir(filepath.Dir(path)); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error { return s.markSafe(tx, safe) })
}

// recoveryHint says what to do with data that was altered.
func (s *Store) recoveryHint() string {
	return fmt.Sprintf("rebuild the data from the journal: stop the server, move %s away, "+
		"then garlandry restore --data %s --journal %s", databaseName, s.dir, s.dir)
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

// verify opens a copy read-only and checks its pages and every record, with seals if there is a key. It returns the
// head of each log.
func verify(path string, key []byte) (heads map[string]server.Head, seals Seals, err error) {
	heads = map[string]server.Head{}
	err = inspect(path, func(tx *bbolt.Tx) (err error) {
		if seals, err = attest(tx, key); err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		return eachLog(tx, func(l *boltLedger, head server.Head) error {
			heads[l.log] = head
			return nil
		})
	})
	return heads, seals, err
}

// inspect opens a database read-only, checks its pages and calls look.
func inspect(path string, look func(tx *bbolt.Tx) error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%w: %s: %v", ErrDamaged, path, p)
		}
	}()
	db, err := bbolt.Open(path, 0o600, &bbolt.Options{ReadOnly: true, PreLoadFreelist: true, Timeout: lockWait})
	if err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDamaged, path, err)
	}
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
		return look(tx)
	})
	return errors.Join(err, db.Close())
}

// eachLog calls do for every log of the database, with its head.
func eachLog(tx *bbolt.Tx, do func(l *boltLedger, head server.Head) error) error {
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

// readAll reads every key and value of a bucket. It runs before bbolt's own check, which crashes the process on a page
// outside the file.
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

func (s *Store) markSafe(tx *bbolt.Tx, heads map[string]server.Head) error {
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
