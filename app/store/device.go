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
			session, err := s.sessionOf(tx, hash, row)
			all = append(all, session)
			return err
		})
	})
	sort.SliceStable(all, func(a, b int) bool { return all[a].Created > all[b].Created })
	return all, err
}

// EndDevice closes one of the owner's devices, such as a lost phone, by the id of its session. It also closes the app
// installed from it, and the unopened owner invites it made. An app installed from the device that asks ends alone.
// Event streams end at once, and what a closed device still sends is quarantined. When EndDevice returns, closed.ndjson
// on disk has it, and no backup lets it in again. Only the owner may do it. Ending a device again changes nothing. The
// error wraps [ErrNotFound] if the owner has no such device.
func (s *Store) EndDevice(ctx context.Context, by Session, id string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	ended := map[string]bool{}
	var lines []Closed
	err := s.db.View(func(tx *bbolt.Tx) error {
		if err := s.requireOwner(tx, by); err != nil {
			return err
		}
		rows, err := s.family(tx, id)
		_, own := rows[by.hash]
		for _, row := range rows {
			if own && row.ID != id { // the device that asks is not lost
				continue
			}
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
	return s.removeInvitesOf(ended)
}

// family returns an owner's session and all sessions of the same device, by token hash.
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

// origin returns a device's first session: the one whose install code let this one in, or else this one.
func origin(id, from string) string {
	if from != "" {
		return from
	}
	return id
}
