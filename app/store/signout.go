package store

import (
	"context"
	"errors"
	"path/filepath"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// SignOut ends a session for good at its own request: its token stops working, its install codes are deleted and its
// event streams end. An app installed from it has its own session and stays. When SignOut returns, closed.ndjson on
// disk has the session, and no backup lets it in again. Signing out again changes nothing.
func (s *Store) SignOut(ctx context.Context, session Session) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if session.hash == "" {
		return notFound("session", session.ID)
	}
	if err := s.closed.add(Closed{Kind: SignedOut, ID: session.ID, At: s.options.Now()}); err != nil {
		return err
	}
	s.news.end(map[string]bool{session.ID: true})
	err := s.update(func(tx *bbolt.Tx, _ *commit) error { return s.dropSession(tx, session.hash) })
	if errors.Is(err, ErrDirectory) { // a full disk: closed.ndjson decides
		return nil
	}
	return err
}

// dropSession deletes a session and its install codes from the database.
func (s *Store) dropSession(tx *bbolt.Tx, hash string) error {
	var row sessionRow
	sessions := tx.Bucket(bucketSessions)
	found, err := getJSON(sessions, []byte(hash), &row)
	if err != nil || !found {
		return err
	}
	if row.Invite != "" { // the row may be the only proof that its invite is spent
		if err := s.spend(ClosedInvite, row.Invite); err != nil {
			return err
		}
		if err := removeInvite(filepath.Join(s.dir, invitesName, row.Invite)); err != nil {
			return err
		}
	}
	if err := dropCodes(tx, hash, false); err != nil {
		return err
	}
	return sessions.Delete([]byte(hash))
}

// OtherOwnerDevices counts the owner's open devices, without the session's own.
func (s *Store) OtherOwnerDevices(session Session) (int, error) {
	others := 0
	err := s.db.View(func(tx *bbolt.Tx) error {
		return s.sessions(tx, func(_ string, row sessionRow) error {
			if row.Role == job.Owner && row.Revoked == 0 && row.ID != session.ID && !row.unseen(s.options.Now()) {
				others++
			}
			return nil
		})
	})
	return others, err
}
