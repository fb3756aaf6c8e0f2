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
		row := codeRow{current.hash, s.options.Now() + codeMS}
		if err := putJSON(tx.Bucket(bucketCodes), []byte(hashOf(code)), row); err != nil {
			return err
		}
		return s.sweepCodes(tx)
	})
}

// RedeemInstallCode spends a code and returns the token of the new session. Errors are [ErrUnknownLink],
// [ErrLinkEnded], [ErrLinkRevoked] or [ErrLinkFull].
func (s *Store) RedeemInstallCode(ctx context.Context, code string) (string, Session, error) {
	if err := ctx.Err(); err != nil {
		return "", Session{}, err
	}
	var secret string
	var session Session
	err := s.update(func(tx *bbolt.Tx, _ *commit) error {
		var row codeRow
		key := []byte(hashOf(code))
		found, err := getJSON(tx.Bucket(bucketCodes), key, &row)
		if err != nil {
			return err
		}
		if !found || s.closed.at(ClosedCode, string(key)) > 0 {
			return ErrUnknownLink
		}
		if s.options.Now() >= row.Ends {
			return ErrLinkEnded
		}
		if err := tx.Bucket(bucketCodes).Delete(key); err != nil {
			return fmt.Errorf("spend code: %w", err)
		}
		first, err := s.refresh(tx, Session{hash: row.Session})
		if err != nil {
			return err
		}
		if first.Closed != "" {
			return ErrLinkRevoked
		}
		if first.Role == job.Owner {
			secret, session, err = s.admit(tx, sessionRow{Role: job.Owner, Name: first.Name, From: origin(first.ID, first.From)})
			return err
		}
		link, err := s.readLink(tx, first.Link)
		if err != nil {
			return err
		}
		if secret, session, err = s.join(tx, link, first.Name); err != nil {
			return err
		}
		session.From = origin(first.ID, first.From) // the installed app may share the browser's storage, and so its device id
		return editSession(tx, session.hash, func(row *sessionRow) { row.From = session.From })
	})
	if err == nil {
		_ = s.spend(ClosedCode, hashOf(code)) // the database says that it is spent
	}
	return secret, session, err
}
