package store

import (
	"crypto/rand"
	"encoding/base32"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

const (
	databaseName = "garlandry.db"
	keyName      = "workspace.key"
	invitesName  = "invites"
	lockWait     = 300 * time.Millisecond
)

// Options are what the store needs from outside. Zero fields use the machine's clock and randomness.
type Options struct {
	Now    func() int64  // Unix milliseconds
	NewID  func() string // 26 letters and digits, 128 random bits
	Random io.Reader     // for tokens and the workspace key
}

func (o Options) filled() Options {
	if o.Random == nil {
		o.Random = rand.Reader
	}
	if o.Now == nil {
		o.Now = func() int64 { return time.Now().UnixMilli() }
	}
	if o.NewID == nil {
		random := o.Random
		o.NewID = func() string {
			id, err := token(random)
			if err != nil {
				return rand.Text()
			}
			return id
		}
	}
	return o
}

// token returns 128 random bits as 26 lower-case base32 letters.
func token(random io.Reader) (string, error) {
	var bits [16]byte
	if _, err := io.ReadFull(random, bits[:]); err != nil {
		return "", fmt.Errorf("read randomness: %w", err)
	}
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(bits[:])), nil
}

// Store is an open data directory. Its methods may be called from many goroutines.
type Store struct {
	dir     string
	options Options
	db      *bbolt.DB
	key     []byte
	newKey  bool
	journal *journal
	states  *states
	news    *news
	closed  *closings
	writes  writes
	repairs []string
	closing sync.Once
}

// Open opens the data directory, and makes it if needed. Only one process may have it open. A directory on a full disk
// opens too; [Store.Trouble] reports it. Errors wrap [ErrInUse], [ErrDirectory] or [ErrDamaged] and name the directory.
func Open(dir string, options Options) (*Store, error) {
	options = options.filled()
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	repair, err := private(dir)
	if err != nil {
		return nil, err
	}
	path := filepath.Join(dir, databaseName)
	if err := firstDatabase(path); err != nil {
		return nil, err
	}
	db, err := openDatabase(path)
	if err != nil {
		return nil, err
	}
	s := &Store{dir: dir, options: options, db: db, states: newStates(), news: newNews()}
	if repair != "" {
		s.repairs = append(s.repairs, repair)
	}
	s.journal = &journal{dir: dir}
	if s.key, s.newKey, err = workspaceKey(filepath.Join(dir, keyName), options.Random); err == nil {
		s.closed, err = readClosings(dir)
	}
	if err != nil {
		return nil, errors.Join(err, db.Close())
	}
	if err := s.TryWrite(); err != nil && !isFull(err) { // a full disk can still be read
		return nil, errors.Join(err, s.Close())
	}
	for _, step := range []func() error{s.keepSeals, s.keepClosed, s.markClosed, s.dropGone, s.keepHeld, s.keepNotes,
		s.sweep, s.sweepPhotos} {
		if err := step(); err != nil && !errors.Is(err, ErrDirectory) { // a full disk puts these off to the next start
			return nil, errors.Join(err, s.Close())
		}
	}
	return s, nil
}

// Close closes the directory. Calls after the first do nothing.
func (s *Store) Close() error {
	var err error
	s.closing.Do(func() {
		s.news.close()
		err = errors.Join(s.journal.close(), s.db.Close())
	})
	return err
}

// NewKey reports whether Open made a new workspace key. If the database is not new, the key was lost: only the owner's
// phones can then heal records.
func (s *Store) NewKey() bool { return s.newKey }

// Repairs lists what Open repaired, in sentences for the console. It is usually empty.
func (s *Store) Repairs() []string { return s.repairs }

// Dir is the data directory.
func (s *Store) Dir() string { return s.dir }

// firstDatabase makes an empty database under another name first, so that a power cut never leaves half of one.
func firstDatabase(path string) error {
	if _, err := os.Stat(path); err == nil {
		return nil
	} else if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
	}
	file, err := os.CreateTemp(filepath.Dir(path), "."+databaseName+"-*")
	if err != nil {
		return fmt.Errorf("%w: %s: cannot write there: %w", ErrDirectory, filepath.Dir(path), err)
	}
	temp := file.Name()
	defer os.Remove(temp) // the linked name stays
	if err := file.Close(); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, temp, err)
	}
	db, err := openDatabase(temp)
	if err != nil {
		return err
	}
	if err := errors.Join(db.Update(prepare), db.Close()); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, filepath.Dir(path), err)
	}
	return publish(temp, path)
}

// publish gives a finished file its name unless another process was first, and flushes the directory.
func publish(temp, path string) error {
	if err := os.Link(temp, path); errors.Is(err, fs.ErrExist) {
		return nil
	} else if err != nil { // a file system without links
		if err := os.Rename(temp, path); err != nil {
			return fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
		}
	}
	return flushDir(filepath.Dir(path))
}

func flushDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	if err := errors.Join(d.Sync(), d.Close()); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, dir, err)
	}
	return nil
}

// openDatabase opens a bbolt file. It returns an error for a damaged one, where bbolt may panic or read beyond its end.
func openDatabase(path string) (db *bbolt.DB, err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			db, err = nil, damaged(path, fmt.Errorf("%v", p))
		}
	}()
	db, err = bbolt.Open(path, 0o600, &bbolt.Options{Timeout: lockWait, FreelistType: bbolt.FreelistMapType})
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, fmt.Errorf("%w: %s; stop that process, or give another directory", ErrInUse, filepath.Dir(path))
	case errors.Is(err, fs.ErrPermission), errors.Is(err, fs.ErrNotExist), isReadOnly(err), isFull(err):
		return nil, fmt.Errorf("%w: %s: %w", ErrDirectory, filepath.Dir(path), err)
	case err != nil:
		return nil, damaged(path, err)
	}
	if err = db.View(checkVersion); err != nil && !errors.Is(err, errEmpty) {
		return nil, errors.Join(damaged(path, err), db.Close())
	}
	return db, nil
}

func damaged(path string, err error) error {
	return fmt.Errorf("%w: %s: %w; keep the file, and restore a backup or the journal with the restore command",
		ErrDamaged, path, err)
}

// workspaceKey reads the key, or makes one. It is kept outside the database: a stolen backup cannot forge records.
func workspaceKey(path string, random io.Reader) (key []byte, made bool, err error) {
	key, err = os.ReadFile(path)
	if err == nil {
		if len(key) < 32 {
			return nil, false, fmt.Errorf(
				"%w: %s is too short for a key; restore it from a copy, or move it away to make a new one", ErrDirectory, path,
			)
		}
		return key, false, nil
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return nil, false, fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
	}
	key = make([]byte, 32)
	if _, err := io.ReadFull(random, key); err != nil {
		return nil, false, fmt.Errorf("read randomness: %w", err)
	}
	if err := writeFile(path, key); err != nil {
		return nil, false, err
	}
	return key, true, nil
}

// writeFile writes a private file whole or not at all.
func writeFile(path string, data []byte) error {
	file, err := os.CreateTemp(filepath.Dir(path), ".new-*")
	if err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, filepath.Dir(path), err)
	}
	defer os.Remove(file.Name()) // gone already if all went well
	_, err = file.Write(data)
	if err = errors.Join(err, file.Chmod(0o600), file.Sync(), file.Close()); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
	}
	if err := os.Rename(file.Name(), path); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrDirectory, path, err)
	}
	return flushDir(filepath.Dir(path))
}
