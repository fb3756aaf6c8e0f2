package store

import (
	"context"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// NameDevice names a device by the id of its session: one's own device, or, for the owner, any device. The error wraps
// [ErrNotFound] if there is no such device or somebody else holds it, and is a [*job.FieldError] on label for a name
// that is empty.
func (s *Store) NameDevice(ctx context.Context, by Session, id, label string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	label = shorten(label)
	if label == "" {
		return &job.FieldError{Path: "label", Message: "a device needs a name"}
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		current, err := s.refresh(tx, by)
		if err != nil {
			return err
		}
		if current.Closed != "" {
			return ErrClosed
		}
		hash := ""
		err = s.sessions(tx, func(at string, row sessionRow) error {
			if row.ID == id && (current.Role == job.Owner || row.ID == current.ID) {
				hash = at
			}
			return nil
		})
		if err != nil {
			return err
		}
		if hash == "" {
			return notFound("device", id)
		}
		return editSession(tx, hash, func(row *sessionRow) { row.Label = label })
	})
}
