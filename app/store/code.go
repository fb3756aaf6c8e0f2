package store

import (
	"context"
	"fmt"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// codeMS is how long an install code may be spent: two days.
const codeMS = int64(2 * 24 * 60 * 60 * 1000)

type codeRow struct {
	Session string `json:"session"` // token hash
	Ends    int64  `json:"ends"`
	Typed   bool   `json:"typed,omitempty"` // short, see [Store.CreateTypedCode]
}

// CreateInstallCode returns a single-use code that gives the same person's installed app its own session. On some
// phones an installed app starts with empty storage.
func (s *Store) CreateInstallCode(ctx context.Context, session Session) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	code, err := token(s.options.Random)
	if err != nil {
		return "", err
	}
	return code, s.update(func(tx *bbolt.Tx, _ *commit) error {
		current, err := s.refresh(tx, session)
		if err != nil {
			return err
		}
		if current.Closed != "" || current.hash == "" {
			return ErrClosed
		}
		row := codeRow{Session: current.hash, Ends: s.options.Now() + codeMS}
		if err := putJSON(tx.Bucket(bucketCodes), []byte(hashOf(code)), row); err != nil {
			return err
		}
		return s.sweepCodes(tx)
	})
}

// RedeemInstallCode spends a code and returns the token of the new session. Errors are [ErrUnknownLink],
// [ErrLinkEnded], [ErrLinkRevoked] or [ErrLinkFull].
func (s *Store) RedeemInstallCode(ctx context.Context, code string) (string, Session, error) {
	return s.redeemCode(ctx, hashOf(code))
}

// redeemCode spends the code that is stored under a hash.
func (s *Store) redeemCode(ctx context.Context, hash string) (string, Session, error) {
	if err := ctx.Err(); err != nil {
		return "", Session{}, err
	}
	var secret string
	var session Session
	err := s.update(func(tx *bbolt.Tx, _ *commit) error {
		row, err := s.openCode(tx, hash)
		if err != nil {
			return err
		}
		if err := tx.Bucket(bucketCodes).Delete([]byte(hash)); err != nil {
			return fmt.Errorf("spend code: %w", err)
		}
		first, err := s.refresh(tx, Session{hash: row.Session})
		if err != nil {
			return err
		}
		if first.Closed != "" {
			return ErrLinkRevoked
		}
		secret, session, err = s.admitAs(tx, first)
		return err
	})
	if err == nil {
		_ = s.spend(ClosedCode, hash) // the database says that it is spent
	}
	return secret, session, err
}

// openCode reads a code that can still be spent.
func (s *Store) openCode(tx *bbolt.Tx, hash string) (codeRow, error) {
	var row codeRow
	found, err := getJSON(tx.Bucket(bucketCodes), []byte(hash), &row)
	switch {
	case err != nil:
		return row, err
	case !found || s.closed.at(ClosedCode, hash) > 0:
		return row, ErrUnknownLink
	case s.options.Now() >= row.Ends:
		return row, ErrLinkEnded
	}
	return row, nil
}

// admitAs makes a session of the same person.
func (s *Store) admitAs(tx *bbolt.Tx, first Session) (string, Session, error) {
	from := origin(first.ID, first.From)
	if first.Role == job.Owner {
		return s.admit(tx, sessionRow{Role: job.Owner, Name: first.Name, From: from})
	}
	link, err := s.readLink(tx, first.Link)
	if err != nil {
		return "", Session{}, err
	}
	secret, session, err := s.join(tx, link, first.Name)
	if err != nil {
		return "", Session{}, err
	}
	session.From = from // the installed app may share the browser's storage, and so its device id
	return secret, session, editSession(tx, session.hash, func(row *sessionRow) { row.From = from })
}
