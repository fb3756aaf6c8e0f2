package store

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// Session is one device that was let in. Get it from [Store.Session]. Every transaction reads it again, so closing a
// link takes effect at once.
type Session struct {
	ID       string
	Role     job.Role
	Name     string // of the person
	Label    string // of the device, such as "iPhone, Safari"; empty: it has none
	Job      string // the only job a helper may see; empty for the owner, who sees all
	Link     string // the helper link it came by; empty for the owner
	Created  int64  // Unix milliseconds
	Seen     int64  // the last call of [Store.Session], to ten minutes
	From     string // the session of the same person whose install code let this one in; empty: none
	Closed   string // "", [sync.Revoked] or [sync.Ended]
	ClosedAt int64
	hash     string // of its token; empty for the server's own
}

func (s Session) forSync() server.Session {
	by := job.Author{Role: s.Role, Name: s.Name, Link: s.Link}
	if by.Link == "" {
		by.Link = s.ID
	}
	return server.Session{ID: s.ID, Family: origin(s.ID, s.From), Author: by, Closed: s.Closed, ClosedAt: s.ClosedAt}
}

// sessionRow is a session on disk, with the operation writer for forms that come without a phone core.
type sessionRow struct {
	ID       string   `json:"id"`
	Role     job.Role `json:"role"`
	Name     string   `json:"name,omitempty"`
	Label    string   `json:"label,omitempty"` // of the device
	Job      string   `json:"job,omitempty"`
	Link     string   `json:"link,omitempty"`
	Created  int64    `json:"made"`
	Seen     int64    `json:"seen"`
	Revoked  int64    `json:"revoked,omitempty"`
	From     string   `json:"from,omitempty"`   // the session whose install code let this one in
	Invite   string   `json:"invite,omitempty"` // hash of the owner invite that it spent
	Device   string   `json:"device"`
	Number   uint64   `json:"n,omitempty"`
	LastWall int64    `json:"wall,omitempty"`
	Counter  uint32   `json:"c,omitempty"`
}

const (
	seenEveryMS     = 10 * 60 * 1000
	maxLinkSessions = 12 // Safari, its installed twin, and then some
)

func hashOf(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

// System is the server itself, writing as an owner: for the demo job and the command line.
func (s *Store) System(name string) Session {
	return Session{ID: job.ServerLink, Role: job.Owner, Name: name}
}

// Session returns the session of a token, even a closed one, and updates when it was seen. The error wraps
// [ErrNotFound].
func (s *Store) Session(token string) (Session, error) {
	var found Session
	hash := hashOf(token)
	err := s.db.View(func(tx *bbolt.Tx) (err error) {
		found, err = s.refresh(tx, Session{hash: hash})
		return err
	})
	now := s.options.Now()
	if err != nil || now-found.Seen < seenEveryMS {
		return found, err
	}
	seen := s.update(func(tx *bbolt.Tx, _ *commit) error {
		return editSession(tx, hash, func(row *sessionRow) { row.Seen = now })
	})
	if seen == nil { // on a full disk the device is still let in
		found.Seen = now
	}
	return found, nil
}

func editSession(tx *bbolt.Tx, hash string, edit func(*sessionRow)) error {
	var row sessionRow
	b := tx.Bucket(bucketSessions)
	found, err := getJSON(b, []byte(hash), &row)
	if err != nil {
		return err
	}
	if !found {
		return notFound("session", "")
	}
	edit(&row)
	return putJSON(b, []byte(hash), row)
}

// refresh reads a session in the transaction.
func (s *Store) refresh(tx *bbolt.Tx, session Session) (Session, error) {
	if session.hash == "" {
		if session.ID != job.ServerLink || session.Role != job.Owner {
			return session, notFound("session", session.ID)
		}
		return session, nil
	}
	var row sessionRow
	found, err := getJSON(tx.Bucket(bucketSessions), []byte(session.hash), &row)
	if err != nil {
		return session, err
	}
	if !found || row.unseen(s.options.Now()) || s.closed.at(SignedOut, row.ID) > 0 {
		return session, notFound("session", session.ID)
	}
	s.closeSession(&row)
	return s.sessionOf(tx, session.hash, row)
}

// sessionOf makes the session of a row. It is closed if its link is.
func (s *Store) sessionOf(tx *bbolt.Tx, hash string, row sessionRow) (Session, error) {
	session := Session{ID: row.ID, Role: row.Role, Name: row.Name, Label: row.Label, Job: row.Job,
		Link: row.Link, Created: row.Created, Seen: row.Seen, From: row.From, hash: hash}
	if row.Revoked > 0 {
		session.Closed, session.ClosedAt = sync.Revoked, row.Revoked
	}
	if row.Link == "" {
		return session, nil
	}
	link, err := s.readLink(tx, row.Link)
	if err != nil {
		return session, err
	}
	session.Role = link.Role
	if session.Name == "" {
		session.Name = link.Name
	}
	closed, at, err := s.linkClosed(tx, link)
	if session.Closed == "" {
		session.Closed, session.ClosedAt = closed, at
	}
	return session, err
}

// writer returns the operation writer of a session, and a function to store it.
func (s *Store) writer(tx *bbolt.Tx, session Session) (sessionRow, func(sessionRow) error, error) {
	b, key := tx.Bucket(bucketSessions), []byte(session.hash)
	if session.hash == "" {
		b, key = tx.Bucket(bucketMeta), keySystem
	}
	var row sessionRow
	if _, err := getJSON(b, key, &row); err != nil {
		return row, nil, err
	}
	if row.Device == "" {
		row.Device = s.options.NewID()
	}
	return row, func(row sessionRow) error { return putJSON(b, key, row) }, nil
}

// admit makes a session and returns its token, which is stored nowhere.
func (s *Store) admit(tx *bbolt.Tx, row sessionRow) (string, Session, error) {
	secret, err := token(s.options.Random)
	if err != nil {
		return "", Session{}, err
	}
	if err := s.sweepSessions(tx); err != nil {
		return "", Session{}, err
	}
	now := s.options.Now()
	row.ID, row.Device, row.Created, row.Seen = s.options.NewID(), s.options.NewID(), now, now
	hash := hashOf(secret)
	if err := putJSON(tx.Bucket(bucketSessions), []byte(hash), row); err != nil {
		return "", Session{}, err
	}
	session, err := s.sessionOf(tx, hash, row)
	return secret, session, err
}

// sessions visits all sessions except those that signed out, with those ended for good marked as ended.
func (s *Store) sessions(tx *bbolt.Tx, visit func(hash string, row sessionRow) error) error {
	return eachSession(tx, func(hash string, row sessionRow) error {
		if s.closed.at(SignedOut, row.ID) > 0 { // a backup brought it back
			return nil
		}
		s.closeSession(&row)
		return visit(hash, row)
	})
}

// eachSession visits all sessions as stored in the database.
func eachSession(tx *bbolt.Tx, visit func(hash string, row sessionRow) error) error {
	return tx.Bucket(bucketSessions).ForEach(func(key, raw []byte) error {
		var row sessionRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: a session: %w", ErrDamaged, err)
		}
		return visit(string(key), row)
	})
}
