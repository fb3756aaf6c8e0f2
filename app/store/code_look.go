package store

import (
	"context"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// InstallCode returns the session whose installed app a code would let in. It does not spend the code. Errors are
// [ErrUnknownLink], also for a code that is spent, [ErrLinkEnded] or [ErrLinkRevoked].
func (s *Store) InstallCode(ctx context.Context, code string) (Session, error) {
	return s.lookAtCode(ctx, hashOf(code))
}

func (s *Store) lookAtCode(ctx context.Context, hash string) (Session, error) {
	if err := ctx.Err(); err != nil {
		return Session{}, err
	}
	var first Session
	err := s.db.View(func(tx *bbolt.Tx) error {
		row, err := s.openCode(tx, hash)
		if err != nil {
			return err
		}
		if first, err = s.refresh(tx, Session{hash: row.Session}); err == nil && first.Closed != "" {
			err = ErrLinkRevoked
		}
		return err
	})
	return first, err
}

// SamePerson reports whether two sessions are one person's on one device or the app installed from it: a code of the
// one would change nothing for the other.
func (s Session) SamePerson(other Session) bool {
	if s.Role == job.Owner || other.Role == job.Owner {
		return s.Role == other.Role && origin(s.ID, s.From) == origin(other.ID, other.From)
	}
	return s.Link == other.Link && s.Name == other.Name
}
