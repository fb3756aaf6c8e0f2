package store

import (
	"errors"
	"fmt"
	"os"

	"garlandry/app/job"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// keyHeldTold is set in a database whose quarantine is all in the journal of its directory.
var keyHeldTold = []byte("heldtold")

// keepHeld writes what is in quarantine to the journal, once for a database of an earlier build or one that was brought
// here: those may hold what this directory's journal does not tell.
func (s *Store) keepHeld() error {
	told := false
	err := s.db.View(func(tx *bbolt.Tx) error {
		told = tx.Bucket(bucketMeta).Get(keyHeldTold) != nil
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
		return errors.Join(s.journal.write(s.options.Now(), lines), tx.Bucket(bucketMeta).Put(keyHeldTold, []byte{1}))
	})
}

// heldStory is what a journal tells of operations that were held, by log and operation.
type heldStory map[string]map[string]*heldTale

// heldTale is one operation's: how it was held, in which order, what was decided, and the record it became.
type heldTale struct {
	held  server.Held
	order int
	rec   *job.Rec
}

// tell takes a line in. Records count only for operations that are known to have been held.
func (h heldStory) tell(l line) {
	tales := h[l.Log]
	switch {
	case l.Held != nil:
		if tales == nil {
			tales = map[string]*heldTale{}
			h[l.Log] = tales
		}
		if have := tales[l.Held.Op.ID]; have != nil {
			have.held.Ignored = have.held.Ignored || l.Held.Ignored
		} else {
			tales[l.Held.Op.ID] = &heldTale{held: *l.Held, order: l.order}
		}
	case l.Settled != nil && tales[l.Settled.ID] != nil:
		tales[l.Settled.ID].held.Ignored = l.Settled.Decision == decisionIgnored
	case l.Rec != nil && tales[l.Rec.ID] != nil:
		tales[l.Rec.ID].rec = l.Rec
	}
}

// merge brings into a database what the journal tells was handed in: what waits or is ignored is held, and what the
// owner accepted goes into the log. It counts what then waits that did not before.
func (h heldStory) merge(s *Store, tx *bbolt.Tx) (waiting int, err error) {
	for log, tales := range h {
		if len(tales) == 0 {
			continue
		}
		l, found := s.ledger(tx, log)
		if !found {
			if err := s.makeJob(tx, Session{ID: "journal"}, jobOf(log), earliest(tales)); err != nil {
				return 0, err
			}
			l, _ = s.ledger(tx, log)
		}
		for _, tale := range tales {
			more, err := l.mergeHeld(tale, s.options.Now())
			if err != nil {
				return 0, fmt.Errorf("bring back what was handed in to %s: %w", log, err)
			}
			waiting += more
		}
	}
	return waiting, nil
}

func earliest(tales map[string]*heldTale) int64 {
	first := int64(0)
	for _, t := range tales {
		if first == 0 || t.held.Proposed < first {
			first = t.held.Proposed
		}
	}
	return first
}

// mergeHeld brings back one operation; 1 if it waits now and did not before.
func (l *boltLedger) mergeHeld(tale *heldTale, now int64) (int, error) {
	id := tale.held.Op.ID
	_, taken, err := l.ByID(id)
	if err != nil {
		return 0, err
	}
	var there server.Held
	held, err := getJSON(l.bucket.Bucket(bucketHeld), []byte(id), &there)
	switch {
	case err != nil:
		return 0, err
	case taken && held, !taken && tale.rec != nil && held:
		if err := errors.Join(l.bucket.Bucket(bucketHeld).Delete([]byte(id)), l.freeHeld(there)); err != nil {
			return 0, err
		}
	case held && tale.held.Ignored && !there.Ignored:
		there.Ignored = true
		return 0, putJSON(l.bucket.Bucket(bucketHeld), []byte(id), there)
	case held:
		return 0, nil
	}
	switch {
	case taken:
		return 0, nil
	case tale.rec != nil:
		_, err := takeBack(l, []job.Rec{*tale.rec}, now)
		return 0, err
	}
	if err := l.Hold(tale.held); err != nil {
		return 0, err
	}
	if tale.held.Ignored {
		return 0, nil
	}
	return 1, nil
}

// ownHeld adds to a story what the journal that lies in a directory tells, if there is one.
func ownHeld(dir string, story heldStory, known func(log string) ([]server.Held, error)) error {
	files, err := journalFiles(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	logs := map[string]bool{}
	n := 0
	look := func(l line) { // first what was held, then what became of it: a record may stand before, from before a restore
		logs[l.Log] = true
		if l.Held != nil || l.Settled != nil {
			story.tell(l)
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
			story.tell(line{journalLine: journalLine{Log: log, Held: &h}})
		}
	}
	_, err = eachLine(files, &n, func(l line) {
		if l.Rec != nil {
			story.tell(l)
		}
	})
	return err
}
