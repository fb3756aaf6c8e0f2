package store

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"go.etcd.io/bbolt"

	"garlandry/app/sync/server"
)

// DatabaseName is the database's file name, for tests that put one back or spoil it.
const DatabaseName = databaseName

// ClosedName is the file of what was closed for good.
const ClosedName = closedName

// KeyName is the name of the workspace key's file.
const KeyName = keyName

// StatesKept is how many folded states stay in memory.
const StatesKept = statesKept

// NewLog makes a log and gives a way into its ledger.
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

// Verify checks the closed database of a directory as a backup is checked, with the directory's key.
func Verify(dir string) error {
	key, err := os.ReadFile(filepath.Join(dir, keyName))
	if err != nil {
		return err
	}
	_, _, err = verify(filepath.Join(dir, databaseName), key)
	return err
}

// VerifyPages runs bbolt's own check alone, for logs that no server wrote.
func VerifyPages(dir string) error {
	return inspect(filepath.Join(dir, databaseName), func(*bbolt.Tx) error { return nil })
}

// ForgetStates empties the memory of folded states, so that the next look reads from disk.
func (s *Store) ForgetStates() { s.states = newStates() }

// HashOf is how a token is named where it is kept.
func HashOf(token string) string { return hashOf(token) }

// Folded is how many folded states are in memory.
func (s *Store) Folded() int {
	s.states.mu.Lock()
	defer s.states.mu.Unlock()
	return len(s.states.byLog)
}

// DropNotes forgets what lists show of jobs, as in a database of an earlier build.
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

// HasNote reports whether what lists show of a job is on disk, up to its head.
func (s *Store) HasNote(id string) bool {
	lags := true
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		l, _ := s.ledger(tx, id)
		_, lags, err = l.note()
		return err
	})
	return err == nil && !lags
}

// Codes is how many install codes are kept.
func (s *Store) Codes() int {
	n := 0
	_ = s.db.View(func(tx *bbolt.Tx) error {
		n = tx.Bucket(bucketCodes).Stats().KeyN
		return nil
	})
	return n
}

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

// ForgetTold makes a closed database look like one of an earlier build, whose journal does not tell what is held.
func ForgetTold(t testing.TB, dir string) {
	db, err := openDatabase(filepath.Join(dir, databaseName))
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bbolt.Tx) error { return tx.Bucket(bucketMeta).Delete(keyHeldJournaled) })
	if err = errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}

// Unbind forgets whose a device id is, as in a database of a build that bound none.
func (s *Store) Unbind(device string) error {
	return s.db.Update(func(tx *bbolt.Tx) error { return tx.Bucket(bucketDevices).Delete([]byte(device)) })
}
