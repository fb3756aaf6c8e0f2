package store

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// DatabaseName is the database's file name.
const DatabaseName = databaseName

// ClosedName is the name of the file of closed links, devices and invites.
const ClosedName = closedName

// KeyName is the name of the workspace key's file.
const KeyName = keyName

// StatesKept is how many folded states are cached.
const StatesKept = statesKept

// NewLog makes a log and returns a function that runs a transaction on it.
func (s *Store) NewLog(log string, created int64) (func(func(server.Ledger) error) error, error) {
	err := s.db.Update(func(tx *bbolt.Tx) error { return s.makeLog(tx, log, created) })
	return func(do func(server.Ledger) error) error {
		return s.db.Update(func(tx *bbolt.Tx) error {
			l, found := s.ledger(tx, log)
			if !found {
				return notFound("log", log)
			}
			return do(l)
		})
	}, err
}

// Look reads a log's ledger.
func (s *Store) Look(log string, do func(server.Ledger) error) error {
	return s.db.View(func(tx *bbolt.Tx) error {
		l, found := s.ledger(tx, log)
		if !found {
			return notFound("log", log)
		}
		return do(l)
	})
}

// Verify checks a directory's closed database with its key, as a backup does.
func Verify(dir string) error {
	key, err := os.ReadFile(filepath.Join(dir, keyName))
	if err != nil {
		return err
	}
	_, _, err = verify(filepath.Join(dir, databaseName), key)
	return err
}

// VerifyPages runs only bbolt's own check, for logs that no server wrote.
func VerifyPages(dir string) error {
	return inspect(filepath.Join(dir, databaseName), func(*bbolt.Tx) error { return nil })
}

// ForgetStates empties the cache of folded states.
func (s *Store) ForgetStates() { s.states = newStates() }

// HashOf returns the hash under which a token is stored.
func HashOf(token string) string { return hashOf(token) }

// Folded returns how many folded states are cached.
func (s *Store) Folded() int {
	s.states.mu.Lock()
	defer s.states.mu.Unlock()
	return len(s.states.byLog)
}

// DropNotes deletes the notes that job lists use, as in a database of an earlier build.
func (s *Store) DropNotes(t testing.TB) {
	err := s.db.Update(func(tx *bbolt.Tx) error {
		return tx.Bucket(bucketJobs).ForEach(func(id, _ []byte) error {
			l, _ := s.ledger(tx, string(id))
			return l.bucket.Delete(keyInfo)
		})
	})
	if err != nil {
		t.Fatal(err)
	}
}

// HasNote reports whether a job's note for lists is on disk and up to date.
func (s *Store) HasNote(id string) bool {
	lags := true
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		l, _ := s.ledger(tx, id)
		_, lags, err = l.note()
		return err
	})
	return err == nil && !lags
}

// Codes returns how many install codes are stored.
func (s *Store) Codes() int {
	n := 0
	_ = s.db.View(func(tx *bbolt.Tx) error {
		n = tx.Bucket(bucketCodes).Stats().KeyN
		return nil
	})
	return n
}

// Sweep deletes what has expired.
func (s *Store) Sweep() error { return s.sweep() }

// Alter changes a log's ledger.
func (s *Store) Alter(log string, do func(server.Ledger) error) error {
	return s.db.Update(func(tx *bbolt.Tx) error {
		l, found := s.ledger(tx, log)
		if !found {
			return notFound("log", log)
		}
		return do(l)
	})
}

// ForgetHeldJournaled makes a closed database look like one of an earlier build, whose journal has no quarantine.
func ForgetHeldJournaled(t testing.TB, dir string) {
	db, err := openDatabase(filepath.Join(dir, databaseName))
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bbolt.Tx) error { return tx.Bucket(bucketMeta).Delete(keyHeldJournaled) })
	if err = errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}

// Unbind forgets the owner of a device id, as in a database of an earlier build.
func (s *Store) Unbind(device string) error {
	return s.db.Update(func(tx *bbolt.Tx) error { return tx.Bucket(bucketDevices).Delete([]byte(device)) })
}
