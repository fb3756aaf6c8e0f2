package store

import (
	"fmt"

	"garlandry/app/job"

	"go.etcd.io/bbolt"
)

// lateListed is how many late operations are listed at most.
const lateListed = 200

// Late lists what helpers sent after the job was archived, in log order, at most 200. It counts, but the owner may
// not have noticed it. Late is empty for a job that is not archived.
func (s *Store) Late(jobID string) ([]job.Rec, error) {
	var late []job.Rec
	err := s.db.View(func(tx *bbolt.Tx) error {
		l, found := s.ledger(tx, jobID)
		if !found {
			return notFound("job", jobID)
		}
		f, _, err := s.fold(tx, jobID)
		if err != nil {
			return err
		}
		away := f.State.Register("brief", "away")
		if string(away.Value()) != "true" {
			return nil
		}
		closing, found, err := l.ByID(away.Readings[0].ID)
		if err != nil || !found {
			return err
		}
		recs, err := l.Read(closing.Seq+1, 5*lateListed)
		if err != nil {
			return fmt.Errorf("read what came late: %w", err)
		}
		for _, r := range recs {
			if r.Author.Role != job.Owner && len(late) < lateListed {
				late = append(late, r)
			}
		}
		return nil
	})
	return late, err
}
