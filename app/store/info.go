package store

import (
	"garlandry/app/job"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// keyInfo stores, beside a shared log's head, what lists of jobs show of it. Listing jobs then folds nothing.
var keyInfo = []byte("info")

// listed are the fields of the brief that lists show, or that decide who is let in.
var listed = map[string]bool{"title": true, "date": true, "doors": true, "away": true}

// jobNote is a summary of a shared log up to a sequence: the current reading of each listed field.
type jobNote struct {
	Seq   uint64     `json:"s"`
	State *job.State `json:"state"`
	stale bool       // something was set aside, or taken back
}

// apply applies one record, unless it is withheld.
func (n *jobNote) apply(r job.Rec, withheld bool) {
	n.Seq = r.Seq
	n.State.Last = max(n.State.Last, r.Effective)
	if _, _, is := r.SetsAside(); is {
		n.stale = true
	}
	if withheld || r.Kind != job.Set || r.Entity != "brief" || !listed[r.Field] {
		return
	}
	n.State.Apply(r)
	register := n.State.Registers[r.Entity][r.Field]
	register.Readings = register.Readings[:1] // only undo needs the others
}

// note returns the log's note, brought up to its head. Lags says that the one on disk is behind.
func (l *boltLedger) note() (n jobNote, lags bool, err error) {
	head, err := l.Head()
	if err != nil {
		return n, false, err
	}
	found, err := getJSON(l.bucket, keyInfo, &n)
	if err != nil || !found || n.State == nil || n.State.Registers == nil || n.Seq > head.Seq {
		n = jobNote{State: job.NewState()} // start over from the log
	}
	lags = n.Seq < head.Seq
	const page = 1000
	for n.Seq < head.Seq {
		if n.stale {
			return l.rebuildNote(head)
		}
		recs, err := l.Read(n.Seq+1, page)
		if err != nil || len(recs) == 0 {
			return n, lags, err
		}
		for _, r := range recs {
			held, err := server.Withheld(l, r)
			if err != nil {
				return n, lags, err
			}
			n.apply(r, held)
		}
	}
	if n.stale {
		return l.rebuildNote(head)
	}
	return n, lags, nil
}

// rebuildNote makes the note from the whole log. It is needed once something was set aside or taken back, as the note
// lacks the value it had replaced.
func (l *boltLedger) rebuildNote(head server.Head) (jobNote, bool, error) {
	recs, err := l.Read(1, int(head.Seq))
	if err != nil {
		return jobNote{}, true, err
	}
	whole := job.Fold(recs...)
	n := jobNote{Seq: head.Seq, State: job.NewState()}
	n.State.Last = whole.Last
	for field, register := range whole.Registers["brief"] {
		if !listed[field] || len(register.Readings) == 0 {
			continue
		}
		if n.State.Registers["brief"] == nil {
			n.State.Registers["brief"] = map[string]*job.Register{}
		}
		n.State.Registers["brief"][field] = &job.Register{Readings: register.Readings[:1]}
	}
	return n, true, nil
}

// keepNote stores the log's note in a writing transaction if the one on disk is behind.
func (l *boltLedger) keepNote() error {
	n, lags, err := l.note()
	if err != nil || !lags {
		return err
	}
	return putJSON(l.bucket, keyInfo, n)
}

// keepNotes stores the notes of all jobs that are behind, as in a restored database or one of an earlier build.
func (s *Store) keepNotes() error {
	var behind []string
	err := s.db.View(func(tx *bbolt.Tx) error {
		return tx.Bucket(bucketJobs).ForEach(func(id, _ []byte) error {
			l, found := s.ledger(tx, string(id))
			if !found {
				return nil
			}
			_, lags, err := l.note()
			if lags {
				behind = append(behind, l.log)
			}
			return err
		})
	})
	if err != nil || len(behind) == 0 {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		for _, log := range behind {
			if l, found := s.ledger(tx, log); found {
				if err := l.keepNote(); err != nil {
					return err
				}
			}
		}
		return nil
	})
}

// lateMS is how long helpers may still work in an archived job: thirty days.
const lateMS = int64(30 * 24 * 60 * 60 * 1000)

// lateEnds returns when an archived job closes for all but its owner, in Unix milliseconds; false if it is not
// archived.
func (s *Store) lateEnds(tx *bbolt.Tx, jobID string) (int64, bool, error) {
	l, found := s.ledger(tx, jobID)
	if !found {
		return 0, false, nil
	}
	n, _, err := l.note()
	if err != nil || !job.ReadBrief(n.State).Archived {
		return 0, false, err
	}
	return n.State.Register("brief", "away").Readings[0].Effective + lateMS, true, nil
}
