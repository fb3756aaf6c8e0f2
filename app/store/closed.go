package store

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	stdsync "sync"

	"go.etcd.io/bbolt"
)

// closedName is the file of everything closed for good. Restore and replay never undo it.
const closedName = "closed.ndjson"

// Kinds of [Closed].
const (
	ClosedLink   = "link"   // a helper link that was revoked; ID is the link's
	ClosedDevice = "device" // an owner's device that was ended; ID is its session's
	ClosedInvite = "invite" // an owner invite that was spent; ID is the hash of its token
	ClosedCode   = "code"   // an install code that was spent; ID is its hash
	SignedOut    = "out"    // a session that signed out; ID is the session's
	ClosedJob    = "job"    // a job removed for good, thirty days after it was deleted at At; ID is the job's

	ClosedClientLink = "client" // a link to a client's page that was revoked; ID is the link's
)

// Closed is one line of closed.ndjson: something that stays closed, whichever database is restored.
type Closed struct {
	Kind string `json:"k"`
	ID   string `json:"id"`
	At   int64  `json:"at"`             // Unix milliseconds
	Name string `json:"name,omitempty"` // of the helper or the device
	Job  string `json:"job,omitempty"`  // of a link
	By   string `json:"by,omitempty"`   // the session that closed it
}

type closedKey struct{ kind, id string }

// closings is the closed.ndjson file of an open directory. Lines are only ever added.
type closings struct {
	path string
	mu   stdsync.Mutex
	all  map[closedKey]Closed
}

// readClosings reads the file. It ignores a line that a power failure cut off: nobody was told that it was saved.
func readClosings(dir string) (*closings, error) {
	c := &closings{path: filepath.Join(dir, closedName), all: map[closedKey]Closed{}}
	file, err := os.Open(c.path)
	if errors.Is(err, fs.ErrNotExist) {
		return c, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: read what was closed: %w", ErrDirectory, err)
	}
	defer file.Close()
	reader := bufio.NewReader(file)
	for {
		text, err := reader.ReadBytes('\n')
		if err != nil && err != io.EOF {
			return nil, fmt.Errorf("%w: read what was closed: %w", ErrDirectory, err)
		}
		var line Closed
		if json.Unmarshal(text, &line) == nil && line.Kind != "" && line.ID != "" {
			c.put(line)
		}
		if err == io.EOF {
			return c, nil
		}
	}
}

// put keeps the earliest closing of each.
func (c *closings) put(line Closed) {
	key := closedKey{line.Kind, line.ID}
	if have, there := c.all[key]; !there || line.At < have.At {
		c.all[key] = line
	}
}

// at returns when something was closed, 0 if it was not.
func (c *closings) at(kind, id string) int64 {
	if c == nil { // a database on its own
		return 0
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.all[closedKey{kind, id}].At
}

// list returns what was closed, latest first.
func (c *closings) list() []Closed {
	c.mu.Lock()
	defer c.mu.Unlock()
	all := make([]Closed, 0, len(c.all))
	for _, line := range c.all {
		all = append(all, line)
	}
	sort.Slice(all, func(a, b int) bool {
		if all[a].At != all[b].At {
			return all[a].At > all[b].At
		}
		return all[a].ID < all[b].ID
	})
	return all
}

// add appends lines to the file and flushes it; only then are they closed. It skips what is closed already.
func (c *closings) add(lines ...Closed) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	var fresh []Closed
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	for _, line := range lines {
		if _, there := c.all[closedKey{line.Kind, line.ID}]; there {
			continue
		}
		fresh = append(fresh, line)
		if err := encoder.Encode(line); err != nil {
			return fmt.Errorf("write what is closed: %w", err)
		}
	}
	if len(fresh) == 0 {
		return nil
	}
	if err := appendFlushed(c.path, text.Bytes()); err != nil {
		return fmt.Errorf("%w: write what is closed: %w; it was not closed", ErrDirectory, err)
	}
	for _, line := range fresh {
		c.put(line)
	}
	return nil
}

// appendFlushed appends lines to a private file and flushes it. If the write fails, it removes what was written.
func appendFlushed(path string, lines []byte) error {
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return err
	}
	before, err := file.Seek(0, io.SeekEnd)
	if err == nil {
		err = endLine(file)
	}
	if err == nil {
		_, err = file.Write(lines)
	}
	if err == nil {
		err = file.Sync()
	}
	if err != nil {
		err = errors.Join(err, file.Truncate(before))
	}
	if err = errors.Join(err, file.Close()); err != nil {
		return err
	}
	return flushDir(filepath.Dir(path))
}

// closeLink, closeClientLink and closeSession mark a row of the database as closed if it was closed for good.
func (s *Store) closeLink(row *linkRow) {
	if at := s.closed.at(ClosedLink, row.ID); at > 0 && (row.Revoked == 0 || at < row.Revoked) {
		row.Revoked = at
	}
}

func (s *Store) closeClientLink(row *clientLinkRow) {
	if at := s.closed.at(ClosedClientLink, row.ID); at > 0 && (row.Revoked == 0 || at < row.Revoked) {
		row.Revoked = at
	}
}

func (s *Store) closeSession(row *sessionRow) {
	at := s.closed.at(ClosedDevice, row.ID)
	if at == 0 && row.From != "" {
		at = s.closed.at(ClosedDevice, row.From)
	}
	if at > 0 && (row.Revoked == 0 || at < row.Revoked) {
		row.Revoked = at
	}
}

// Closed lists what was closed for good, latest first: links revoked, devices ended, invites and install codes spent.
func (s *Store) Closed() []Closed { return s.closed.list() }

// ReadClosed lists what was closed for good in a data directory, like [Store.Closed]. A server may have it open.
func ReadClosed(dir string) ([]Closed, error) {
	c, err := readClosings(dir)
	if err != nil {
		return nil, err
	}
	return c.list(), nil
}

// closedRows returns what is closed in a database.
func (s *Store) closedRows(tx *bbolt.Tx) ([]Closed, error) {
	var all []Closed
	err := s.links(tx, func(row linkRow) error {
		if row.Revoked > 0 {
			all = append(all, Closed{Kind: ClosedLink, ID: row.ID, At: row.Revoked, Name: row.Name, Job: row.Job})
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = s.sessions(tx, func(_ string, row sessionRow) error {
		if row.Revoked > 0 {
			all = append(all, Closed{Kind: ClosedDevice, ID: row.ID, At: row.Revoked, Name: row.Name})
		}
		if row.Invite != "" {
			all = append(all, Closed{Kind: ClosedInvite, ID: row.Invite, At: row.Created})
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = s.clientLinks(tx, func(_ string, row clientLinkRow) error {
		if row.Revoked > 0 {
			all = append(all, Closed{Kind: ClosedClientLink, ID: row.ID, At: row.Revoked, Job: row.Job})
		}
		return nil
	})
	return all, err
}

// keepClosed adds to the file what is closed only in the database: one of an earlier build, or from another directory.
func (s *Store) keepClosed() error {
	var all []Closed
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		all, err = s.closedRows(tx)
		return err
	})
	if err != nil {
		return err
	}
	return s.closed.add(all...)
}

// markClosed closes in the database what was closed for good, for code that reads only the database. A full disk is no
// error: the file decides.
func (s *Store) markClosed() error {
	var open reopened
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		open, err = s.reopened(tx)
		return err
	})
	if err != nil || len(open.links)+len(open.clients)+len(open.sessions) == 0 {
		return err
	}
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		_, _, err := s.closeAgain(tx)
		return err
	})
	if errors.Is(err, ErrDirectory) {
		return nil
	}
	return err
}

// reopened is what was closed for good but is open in a database. The rows say that they are closed.
type reopened struct {
	links    []linkRow
	clients  map[string]clientLinkRow // by token hash
	sessions map[string]sessionRow    // by token hash
}

func (s *Store) reopened(tx *bbolt.Tx) (reopened, error) {
	all := reopened{clients: map[string]clientLinkRow{}, sessions: map[string]sessionRow{}}
	err := eachLink(tx, func(row linkRow) error {
		if open := row.Revoked == 0; open {
			if s.closeLink(&row); row.Revoked > 0 {
				all.links = append(all.links, row)
			}
		}
		return nil
	})
	err = errors.Join(err, eachClientLink(tx, func(hash string, row clientLinkRow) error {
		if open := row.Revoked == 0; open {
			if s.closeClientLink(&row); row.Revoked > 0 {
				all.clients[hash] = row
			}
		}
		return nil
	}))
	return all, errors.Join(err, eachSession(tx, func(hash string, row sessionRow) error {
		if open := row.Revoked == 0; open {
			if s.closeSession(&row); row.Revoked > 0 {
				all.sessions[hash] = row
			}
		}
		return nil
	}))
}

// closeAgain closes in a database what was closed for good but is open there. It returns how many that is. Links to
// clients' pages count as links.
func (s *Store) closeAgain(tx *bbolt.Tx) (links, devices int, err error) {
	open, err := s.reopened(tx)
	for _, row := range open.links {
		err = errors.Join(err, putJSON(tx.Bucket(bucketLinks), []byte(row.ID), row))
	}
	for hash, row := range open.clients {
		err = errors.Join(err, putJSON(tx.Bucket(bucketClientLinks), []byte(hash), row))
	}
	for hash, row := range open.sessions {
		err = errors.Join(err, putJSON(tx.Bucket(bucketSessions), []byte(hash), row))
	}
	return len(open.links) + len(open.clients), len(open.sessions), err
}
