package store

import (
	"context"
	"sort"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// OwnerDevices lists the owner's devices, closed ones included, newest first.
func (s *Store) OwnerDevices() ([]Session, error) {
	var all []Session
	err := s.db.View(func(tx *bbolt.Tx) error {
		return s.sessions(tx, func(hash string, row sessionRow) error {
			if row.Role != job.Owner {
				return nil
			}
			session, err := s.dress(tx, hash, row)
			all = append(all, session)
			return err
		})
	})
	sort.SliceStable(all, func(a, b int) bool { return all[a].Created > all[b].Created })
	return all, err
}

// EndDevice closes one of the owner's devices by the id of its session, for a phone that is lost: that session, the app
// installed from it, and the owner invites it made that nobody has opened. Its event streams end at once, and what it
// still hands in is quarantined. It is in closed.ndjson, flushed to disk, when EndDevice returns, so that no backup
// lets it in again. Only the owner may. Ending a device again changes nothing. The error wraps [ErrNotFound] for what
// is no device of the owner's.
func (s *Store) EndDevice(ctx context.Context, by Session, id string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	ended := map[string]bool{}
	var lines []Closed
	err := s.db.View(func(tx *bbolt.Tx) error {
		if err := s.mustOwn(tx, by); err != nil {
			return err
		}
		rows, err := s.family(tx, id)
		for _, row := range rows {
			ended[row.ID] = true
			if row.Revoked == 0 {
				row.Revoked = s.options.Now()
			}
			lines = append(lines, Closed{Kind: ClosedDevice, ID: row.ID, At: row.Revoked, Name: row.Name, By: by.ID})
		}
		return err
	})
	if err != nil {
		return err
	}
	if err := s.closed.add(lines...); err != nil {
		return err
	}
	if err := s.markClosed(); err != nil {
		return err
	}
	s.news.end(ended)
	return s.withdraw(ended)
}

// family returns an owner's session and those let in from it or from the same one, by token hash.
func (s *Store) family(tx *bbolt.Tx, id string) (map[string]sessionRow, error) {
	rows, first := map[string]sessionRow{}, ""
	err := s.sessions(tx, func(hash string, row sessionRow) error {
		if row.Role != job.Owner {
			return nil
		}
		rows[hash] = row
		if row.ID == id {
			first = origin(row.ID, row.From)
		}
		return nil
	})
	if err == nil && first == "" {
		err = notFound("device", id)
	}
	for hash, row := range rows {
		if origin(row.ID, row.From) != first {
			delete(rows, hash)
		}
	}
	return rows, err
}

// origin is the session from which all installed apps of a device come: its own, unless it was let in from another.
func origin(id, from string) string {
	if from != "" {
		return from
	}
	return id
}
