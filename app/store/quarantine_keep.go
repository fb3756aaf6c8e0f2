package store

import (
	"errors"
	"fmt"
	"os"

	"garlandry/app/job"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// keyHeldJournaled is set in a database once its directory's journal has all of its quarantine.
var keyHeldJournaled = []byte("heldtold")

// keepHeld writes the quarantine to the journal, once for a database of an earlier build or from another directory:
// this directory's journal may lack it.
func (s *Store) keepHeld() error {
	told := false
	err := s.db.View(func(tx *bbolt.Tx) error {
		told = tx.Bucket(bucketMeta).Get(keyHeldJournaled) != nil
		return nil
	})
	if err != nil || told {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		var lines []journalLine
		err := eachLog(tx, func(l *boltLedger, _ server.Head) error {
			all, err := l.held()
			for _, h := range all {
				lines = append(lines, journalLine{Log: l.log, Held: &h})
				if h.Ignored {
					ignored := settled{ID: h.Op.ID, Decision: decisionIgnored, At: s.options.Now()}
					lines = append(lines, journalLine{Log: l.log, Settled: &ignored})
				}
			}
			return err
		})
		if err != nil {
			return err
		}
		return errors.Join(s.journal.write(s.options.Now(), lines), tx.Bucket(bucketMeta).Put(keyHeldJournaled, []byte{1}))
	})
}

// heldHistory is the history of held operations in a journal, by log and operation.
type heldHistory map[string]map[string]*heldEntry

// heldEntry is the history of one held operation: when it came, the owner's decision, and its record if accepted.
type heldEntry struct {
	held  server.Held
	order int
	rec   *job.Rec
}

// add adds a line. It ignores records of operations that were never held.
func (h heldHistory) add(l line) {
	entries := h[l.Log]
	switch {
	case l.Held != nil:
		if entries == nil {
			entries = map[string]*heldEntry{}
			h[l.Log] = entries
		}
		if have := entries[l.Held.Op.ID]; have != nil {
			have.held.Ignored = have.held.Ignored || l.Held.Ignored
		} else {
			entries[l.Held.Op.ID] = &heldEntry{held: *l.Held, order: l.order}
		}
	case l.Settled != nil && entries[l.Settled.ID] != nil:
		entries[l.Settled.ID].held.Ignored = l.Settled.Decision == decisionIgnored
	case l.Rec != nil && entries[l.Rec.ID] != nil:
		entries[l.Rec.ID].rec = l.Rec
	}
}

// merge adds the history to a database: waiting and ignored operations are held, accepted ones go into the log. It
// returns how many wait that did not wait before.
func (h heldHistory) merge(s *Store, tx *bbolt.Tx) (waiting int, err error) {
	for log, entries := range h {
		if len(entries) == 0 {
			continue
		}
		l, found := s.ledger(tx, log)
		if !found {
			if err := s.makeJob(tx, Session{ID: "journal"}, jobOf(log), earliest(entries)); err != nil {
				return 0, err
			}
			l, _ = s.ledger(tx, log)
		}
		for _, entry := range entries {
			more, err := l.mergeHeld(entry, s.options.Now())
			if err != nil {
				return 0, fmt.Errorf("restore what was sent to %s: %w", log, err)
			}
			waiting += more
		}
	}
	return waiting, nil
}

func earliest(entries map[string]*heldEntry) int64 {
	first := int64(0)
	for _, t := range entries {
		if first == 0 || t.held.Proposed < first {
			first = t.held.Proposed
		}
	}
	return first
}

// mergeHeld merges one operation. It returns 1 if the operation waits now and did not before.
func (l *boltLedger) mergeHeld(entry *heldEntry, now int64) (int, error) {
	id := entry.held.Op.ID
	_, taken, err := l.ByID(id)
	if err != nil {
		return 0, err
	}
	var there server.Held
	held, err := getJSON(l.bucket.Bucket(bucketHeld), []byte(id), &there)
	switch {
	case err != nil:
		return 0, err
	case taken && held, !taken && entry.rec != nil && held:
		if err := errors.Join(l.bucket.Bucket(bucketHeld).Delete([]byte(id)), l.freeHeld(there)); err != nil {
			return 0, err
		}
	case held && entry.held.Ignored && !there.Ignored:
		there.Ignored = true
		return 0, putJSON(l.bucket.Bucket(bucketHeld), []byte(id), there)
	case held:
		return 0, nil
	}
	switch {
	case taken:
		return 0, nil
	case entry.rec != nil:
		_, err := healInto(l, []job.Rec{*entry.rec}, now)
		return 0, err
	}
	if err := l.Hold(entry.held); err != nil {
		return 0, err
	}
	if entry.held.Ignored {
		return 0, nil
	}
	return 1, nil
}

// ownHeld adds the directory's journal, if there is one, to the history.
func ownHeld(dir string, history heldHistory, known func(log string) ([]server.Held, error)) error {
	files, err := journalFiles(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	logs := map[string]bool{}
	n := 0
	look := func(l line) { // records come in a second pass: after a restore, one may precede the line that holds it
		logs[l.Log] = true
		if l.Held != nil || l.Settled != nil {
			history.add(l)
		}
	}
	if _, err := eachLine(files, &n, look); err != nil {
		return err
	}
	for log := range logs {
		all, err := known(log)
		if err != nil {
			return err
		}
		for _, h := range all {
			history.add(line{journalLine: journalLine{Log: log, Held: &h}})
		}
	}
	_, err = eachLine(files, &n, func(l line) {
		if l.Rec != nil {
			history.add(l)
		}
	})
	return err
}
