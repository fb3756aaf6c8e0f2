package store

import (
	"context"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// Post is one submitted form with an id of its own. Writing it again changes nothing: the log knows its operations by
// their ids, in the same transaction.
type Post struct {
	ID     job.Post
	Job    string
	Create bool // the job does not exist yet
}

// WritePost is [Store.Write], or [Store.CreateJob], for a form that may come again because its answer was lost. A
// repeat, here or from the phone that made the form, is no error and changes nothing.
func (s *Store) WritePost(ctx context.Context, session Session, post Post, changes []job.Change) error {
	_, err := s.write(ctx, session, jobOf(post.Job), post.ID, changes, post.Create)
	return err
}

// fresh returns the chosen operations that the log does not have. The job may have changed since a post came first, and
// a repeat may make other changes; one known operation therefore means that all are known. The changes of a new job are
// the same each time: a phone may have sent some, and the rest is still needed.
func (w formWriter) fresh(log string, ops []job.Op, chosen []int) ([]int, error) {
	l, found := w.store.ledger(w.tx, log)
	if w.post == "" || len(chosen) == 0 || !found {
		return chosen, nil
	}
	var fresh []int
	for _, i := range chosen {
		_, known, err := l.ByID(ops[i].ID)
		if err == nil && !known {
			known, err = l.IsHeld(ops[i].ID)
		}
		if err != nil {
			return nil, err
		}
		if known && !w.creates {
			return nil, nil
		}
		if !known {
			fresh = append(fresh, i)
		}
	}
	return fresh, nil
}

// Taken reports whether the job's logs have operations of the post. A repeated form may be invalid by now, as the job
// has changed, and yet was saved the first time.
func (s *Store) Taken(jobID string, post job.Post) (bool, error) {
	taken := false
	err := s.db.View(func(tx *bbolt.Tx) error {
		for _, private := range []bool{false, true} {
			l, found := s.ledger(tx, logOf(jobID, private))
			if !found {
				continue
			}
			_, known, err := l.ByID(post.OpID(private, 0))
			if err != nil {
				return err
			}
			taken = taken || known
		}
		return nil
	})
	return taken, err
}
