package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sort"

	"go.etcd.io/bbolt"

	"garlandry/app/sync"
	"garlandry/app/sync/server"
)

func (l *boltLedger) held() ([]server.Held, error) {
	var all []server.Held
	err := l.bucket.Bucket(bucketHeld).ForEach(func(_, raw []byte) error {
		var h server.Held
		if err := json.Unmarshal(raw, &h); err != nil {
			return fmt.Errorf("%w: a held operation: %w", ErrDamaged, err)
		}
		all = append(all, h)
		return nil
	})
	sortHeld(all)
	return all, err
}

func sortHeld(all []server.Held) {
	sort.SliceStable(all, func(a, b int) bool {
		if all[a].Op.Device != all[b].Op.Device {
			return all[a].Op.Device < all[b].Op.Device
		}
		return all[a].Op.Number < all[b].Op.Number
	})
}

// ledgers opens a job's two logs, the shared one first.
func (s *Store) ledgers(tx *bbolt.Tx, jobID string) ([]*boltLedger, error) {
	var both []*boltLedger
	for _, log := range [...]string{jobID, jobID + sync.OwnSuffix} {
		l, found := s.ledger(tx, log)
		if !found {
			return nil, notFound("job", jobID)
		}
		both = append(both, l)
	}
	return both, nil
}

// waiting returns what waits for the owner in a job's two logs, sorted by device and number.
func (s *Store) waiting(tx *bbolt.Tx, jobID string) ([]server.Held, error) {
	both, err := s.ledgers(tx, jobID)
	if err != nil {
		return nil, err
	}
	var waiting []server.Held
	for _, l := range both {
		all, err := l.held()
		if err != nil {
			return nil, err
		}
		for _, h := range all {
			if !h.Ignored {
				waiting = append(waiting, h)
			}
		}
	}
	sortHeld(waiting)
	return waiting, nil
}

// Quarantine lists the operations in both logs of the job that wait for the owner, because they came after their link
// or device was closed. They are sorted by device and number. Ignored ones are left out.
func (s *Store) Quarantine(jobID string) (waiting []server.Held, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		waiting, err = s.waiting(tx, jobID)
		return err
	})
	return waiting, err
}

// AcceptQuarantined adds the operations with the ids to the job, in the order they were made, under their author's
// name. Only the owner may do it. An id that is not waiting gives [ErrNotFound], and nothing is changed.
func (s *Store) AcceptQuarantined(ctx context.Context, session Session, jobID string, ids []string) error {
	return s.settleHeld(ctx, session, jobID, ids, func(l *boltLedger, h server.Held) error {
		if err := server.Release(l, h, s.options.Now()); err != nil {
			return err
		}
		l.journalSettled(h, decisionAccepted, s.options.Now(), session)
		return errors.Join(l.bucket.Bucket(bucketHeld).Delete([]byte(h.Op.ID)), l.freeHeld(h))
	})
}

// IgnoreQuarantined leaves the operations out of the job for good. They stay in the database, and a phone that hands
// them in again is told that they were sent. Only the owner may do it.
func (s *Store) IgnoreQuarantined(ctx context.Context, session Session, jobID string, ids []string) error {
	return s.settleHeld(ctx, session, jobID, ids, func(l *boltLedger, h server.Held) error {
		h.Ignored = true
		l.journalSettled(h, decisionIgnored, s.options.Now(), session)
		return putJSON(l.bucket.Bucket(bucketHeld), []byte(h.Op.ID), h)
	})
}

// journalSettled adds the owner's decision to the journal.
func (l *boltLedger) journalSettled(h server.Held, decision string, now int64, by Session) {
	l.lines = append(l.lines, journalLine{Log: l.log, Settled: &settled{h.Op.ID, decision, now, by.ID}})
}

func (l *boltLedger) freeHeld(h server.Held) error {
	ops, bytes, err := l.HeldBy(h.Session)
	if err != nil {
		return err
	}
	return errors.Join(server.CountHeld(l, h, false),
		putJSON(l.bucket.Bucket(bucketHeldBy), []byte(h.Session), heldBy{max(0, ops-1), max(0, bytes-h.Bytes())}))
}

func (s *Store) settleHeld(ctx context.Context, session Session, jobID string, ids []string,
	settle func(*boltLedger, server.Held) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, done *commit) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		both, err := s.ledgers(tx, jobID)
		if err != nil {
			return err
		}
		wanted := map[string]bool{}
		for _, id := range ids {
			wanted[id] = true
		}
		for _, l := range both {
			if err := l.settleHeld(wanted, settle); err != nil {
				return err
			}
		}
		for id := range wanted {
			return notFound("held operation", id)
		}
		return errors.Join(done.add(both[0]), done.add(both[1]))
	})
}

// settleHeld settles the wanted operations that wait in this log, and removes them from wanted.
func (l *boltLedger) settleHeld(wanted map[string]bool, settle func(*boltLedger, server.Held) error) error {
	all, err := l.held()
	if err != nil {
		return err
	}
	for _, h := range all {
		if !wanted[h.Op.ID] || h.Ignored {
			continue
		}
		delete(wanted, h.Op.ID)
		if err := settle(l, h); err != nil {
			return err
		}
	}
	return nil
}
