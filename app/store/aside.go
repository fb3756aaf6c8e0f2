package store

import (
	"context"
	"encoding/json"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

const (
	suspectsListed = 200
	largeValue     = 8 << 10 // far above what a person types into a field
)

// Suspect is an operation that its owner may want to set aside, or has.
type Suspect struct {
	Rec     job.Rec // without its value
	Log     string
	Bytes   int  // of the value
	Unknown bool // this build does not know its kind
	Harmful bool // it could crash a phone, so phones never get it

	Aside bool // whether it is set aside now; then who said so, why, and when
	By    string
	Why   string
	At    int64
}

// Suspects lists the unusual operations of a job's two logs, newest first, up to 200: unknown kinds, large values, what
// could crash a phone, and what was ever set aside. It neither reads nor plans the job.
func (s *Store) Suspects(jobID string) (all []Suspect, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		both, err := s.ledgers(tx, jobID)
		if err != nil {
			return err
		}
		for _, l := range both {
			found, err := s.suspects(tx, l)
			if err != nil {
				return err
			}
			all = append(all, found...)
		}
		return nil
	})
	return all[:min(len(all), suspectsListed)], err
}

func (s *Store) suspects(tx *bbolt.Tx, l *boltLedger) ([]Suspect, error) {
	f, _, err := s.fold(tx, l.log)
	if err != nil {
		return nil, err
	}
	var found []Suspect
	cursor := l.bucket.Bucket(bucketRecs).Cursor()
	for key, raw := cursor.Last(); key != nil && len(found) < suspectsListed; key, raw = cursor.Prev() {
		rec, err := l.decode(raw)
		if err != nil {
			return nil, err
		}
		x := Suspect{Log: l.log, Bytes: len(rec.Value), Unknown: !rec.Kind.Known(), Harmful: !rec.Harmless()}
		entity := job.AsideEntity(rec.ID, job.Private(rec.Entity))
		decisions := f.State.Register(entity, job.AsideField).Readings
		if !x.Unknown && !x.Harmful && x.Bytes < largeValue && len(decisions) == 0 {
			continue
		}
		if len(decisions) > 0 {
			last := decisions[0]
			x.Aside, x.By, x.At = string(last.Value) == "true", last.Author.Name, last.Effective
			_ = json.Unmarshal(f.State.Register(entity, job.AsideWhy).Value(), &x.Why) // no text is no reason
		}
		rec.Value = nil
		x.Rec = rec
		found = append(found, x)
	}
	return found, nil
}

// SetAside sets an operation of a job aside, or takes that back. An operation set aside no longer counts, and its value
// is not sent to phones again. Its record stays; who set it aside, when and why are operations of the job. Only the
// owner may do it. The error wraps [ErrNotFound] if the operation is in neither log of the job.
func (s *Store) SetAside(ctx context.Context, session Session, jobID, op string, aside bool, why string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, done *commit) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		current, err := s.enter(tx, session, jobID)
		if err != nil {
			return err
		}
		both, err := s.ledgers(tx, jobID)
		if err != nil {
			return err
		}
		private, there := false, false
		for _, l := range both {
			rec, found, err := l.ByID(op)
			if err != nil {
				return err
			}
			if _, is := job.AsideOf(rec.Entity); found && is {
				return fmt.Errorf("operation %q sets another one aside: %w; take that back instead", op, ErrForbidden)
			}
			if found {
				private, there = l.log == jobID+sync.OwnSuffix, true
			}
		}
		if !there {
			return notFound("operation", op)
		}
		w := formWriter{store: s, tx: tx, session: current, done: done, now: s.options.Now()}
		_, err = w.write(jobID, job.SetAside(op, private, aside, why))
		return err
	})
}
