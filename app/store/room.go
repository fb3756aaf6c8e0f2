package store

import (
	"errors"
	"fmt"
	"os"
	stdsync "sync"

	"go.etcd.io/bbolt"
)

const (
	triedMS    = 5000    // how long the outcome of a try holds
	triedBytes = 8 << 10 // what a try writes beside the database: room for an exchange's lines in the journal
)

// keyTried is written by each try.
var keyTried = []byte("tried")

// writes remembers whether the last write reached the disk.
type writes struct {
	mu    stdsync.Mutex
	tried bool
	at    int64 // of the last try, Unix milliseconds
	err   error
}

// TryWrite tests whether a change can be saved: it writes and flushes a little, beside the database and in it. The
// error says why not, and wraps [ErrDirectory]. It tries at most every five seconds and otherwise returns the last
// result.
func (s *Store) TryWrite() error {
	s.writes.mu.Lock()
	defer s.writes.mu.Unlock()
	now := s.options.Now()
	if s.writes.tried && now >= s.writes.at && now-s.writes.at < triedMS {
		return s.writes.err
	}
	s.writes.tried, s.writes.at, s.writes.err = true, now, s.tryWrite(now)
	return s.writes.err
}

func (s *Store) tryWrite(now int64) error {
	file, err := os.CreateTemp(s.dir, ".probe-*")
	if err != nil {
		return fmt.Errorf("%w: %s: cannot write there: %w", ErrDirectory, s.dir, err)
	}
	_, err = file.Write(make([]byte, triedBytes))
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close(), os.Remove(file.Name())); err == nil {
		err = s.db.Update(func(tx *bbolt.Tx) error { return tx.Bucket(bucketMeta).Put(keyTried, number(uint64(now))) })
	}
	if err != nil {
		return fmt.Errorf("%w: %s: cannot write there: %w", ErrDirectory, s.dir, err)
	}
	return nil
}

// Trouble says why nothing can be saved now; nil while writes reach the disk. After a failed write it tries again, see
// [Store.TryWrite].
func (s *Store) Trouble() error {
	s.writes.mu.Lock()
	err := s.writes.err
	s.writes.mu.Unlock()
	if err == nil {
		return nil
	}
	return s.TryWrite()
}

// wrote records whether a change reached the disk.
func (s *Store) wrote(err error) {
	if err != nil && !errors.Is(err, ErrDirectory) { // refused for another reason
		return
	}
	s.writes.mu.Lock()
	defer s.writes.mu.Unlock()
	s.writes.err = err
	if err != nil {
		s.writes.tried, s.writes.at = true, s.options.Now()
	}
}

// Free returns the free space on the data directory's disk, in bytes; false if the system does not say.
func (s *Store) Free() (uint64, bool) { return freeBytes(s.dir) }
