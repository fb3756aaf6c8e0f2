package store

import (
	"context"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// SetLinkAside sets aside what came by a helper link since a time, in Unix milliseconds, and returns the number of
// operations. It skips those already set aside. Each gets its own register and can be taken back alone; the reason is
// stored with the first. Phones propose their own times, so an operation with an earlier time also counts if it arrived
// after another one from that time on. Only the owner may do it.
func (s *Store) SetLinkAside(
	ctx context.Context,
	session Session,
	jobID, linkID string,
	since int64,
	why string,
) (count int, err error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	err = s.update(func(tx *bbolt.Tx, done *commit) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		current, err := s.enter(tx, session, jobID)
		if err != nil {
			return err
		}
		if link, err := s.readLink(tx, linkID); err != nil || link.Job != jobID {
			return notFound("link", linkID)
		}
		ids, err := s.cameBy(tx, jobID, linkID, since)
		if err != nil || len(ids) == 0 {
			return err
		}
		changes := []job.Change{job.Put(job.AsideEntity(ids[0], false), job.AsideWhy, why)}
		for _, id := range ids {
			changes = append(changes, job.Put(job.AsideEntity(id, false), job.AsideField, true))
		}
		w := formWriter{store: s, tx: tx, session: current, done: done, now: s.options.Now()}
		_, err = w.write(jobID, changes)
		count = len(ids)
		return err
	})
	if err != nil {
		return 0, err
	}
	return count, nil
}

// cameBy lists a link's operations in a job's shared log that count and came since a time, in log order.
func (s *Store) cameBy(tx *bbolt.Tx, jobID, linkID string, since int64) ([]string, error) {
	l, found := s.ledger(tx, jobID)
	if !found {
		return nil, notFound("job", jobID)
	}
	f, _, err := s.fold(tx, jobID)
	if err != nil {
		return nil, err
	}
	var ids []string
	latest := int64(0)
	for from := uint64(1); ; {
		recs, err := l.Read(from, sync.MaxRecs)
		if err != nil {
			return nil, fmt.Errorf("look for what came by link %s: %w", linkID, err)
		}
		if len(recs) == 0 {
			return ids, nil
		}
		for _, rec := range recs {
			latest = max(latest, rec.Effective)
			by := rec.Author
			if by.Role != job.Owner && by.Link == linkID && latest >= since && !f.State.Aside(rec.ID, rec.Entity) {
				ids = append(ids, rec.ID)
			}
		}
		from = recs[len(recs)-1].Seq + 1
	}
}
