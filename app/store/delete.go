package store

import (
	"context"
	"encoding/json"
	"fmt"
	"sort"

	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// RestorableMS is how long a deleted job can be restored: thirty days.
const RestorableMS = int64(30 * 24 * 60 * 60 * 1000)

// bucketDeleted holds the deleted jobs that can be restored. It is made on first use.
var bucketDeleted = []byte("deleted") // job id: deletedRow

// deletedRow says when the owner deleted a job, and by which session.
type deletedRow struct {
	At int64  `json:"at"`
	By string `json:"by"`
}

// Deleted is a deleted job as its owner sees it.
type Deleted struct {
	ID, Title, Date string
	At              int64 // Unix milliseconds
	Ends            int64 // until then it can be restored
	Gone            bool  // it was removed for good; nothing but its id is known
}

// deletedAt returns when a job was deleted, 0 if it was not. Gone says that it cannot be restored any more.
func (s *Store) deletedAt(tx *bbolt.Tx, id string) (at int64, gone bool, err error) {
	if at = s.closed.at(ClosedJob, id); at > 0 {
		return at, true, nil
	}
	b := tx.Bucket(bucketDeleted)
	if b == nil {
		return 0, false, nil
	}
	var row deletedRow
	found, err := getJSON(b, []byte(id), &row)
	return row.At, found && s.options.Now() >= row.At+RestorableMS, err
}

// live returns an error for a job that was deleted: [ErrJobGone] if for good, else one that wraps [ErrNotFound].
func (s *Store) live(tx *bbolt.Tx, id string) error {
	at, gone, err := s.deletedAt(tx, id)
	switch {
	case err != nil:
		return err
	case gone:
		return ErrJobGone
	case at > 0:
		return notFound("job", id)
	}
	return nil
}

// DeleteJob deletes a job for its owner. Nobody sees it any more and its links are closed, but for thirty days
// [Store.RestoreJob] brings it back whole, with what phones sent meanwhile. Deleting again changes nothing.
func (s *Store) DeleteJob(ctx context.Context, session Session, id string) error {
	return s.ownerEdits(ctx, session, func(tx *bbolt.Tx) error {
		at, gone, err := s.deletedAt(tx, id)
		switch {
		case err != nil || at > 0 && !gone:
			return err
		case gone:
			return ErrJobGone
		}
		if tx.Bucket(bucketJobs).Get([]byte(id)) == nil {
			return notFound("job", id)
		}
		b, err := tx.CreateBucketIfNotExists(bucketDeleted)
		if err != nil {
			return fmt.Errorf("delete job %s: %w", id, err)
		}
		return putJSON(b, []byte(id), deletedRow{s.options.Now(), session.ID})
	})
}

// RestoreJob brings a deleted job back. It returns [ErrJobGone] when the thirty days are over.
func (s *Store) RestoreJob(ctx context.Context, session Session, id string) error {
	return s.ownerEdits(ctx, session, func(tx *bbolt.Tx) error {
		at, gone, err := s.deletedAt(tx, id)
		switch {
		case err != nil:
			return err
		case gone:
			return ErrJobGone
		case at == 0:
			return notFound("deleted job", id)
		}
		return tx.Bucket(bucketDeleted).Delete([]byte(id))
	})
}

func (s *Store) ownerEdits(ctx context.Context, session Session, do func(*bbolt.Tx) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		return do(tx)
	})
}

// Deleted lists the deleted jobs for the owner, latest first: those that can be restored and those that are gone.
func (s *Store) Deleted(session Session) ([]Deleted, error) {
	var all []Deleted
	err := s.db.View(func(tx *bbolt.Tx) error {
		if err := s.requireOwner(tx, session); err != nil {
			return err
		}
		return s.eachDeleted(tx, func(id string, row deletedRow) error {
			d := Deleted{ID: id, At: row.At, Ends: row.At + RestorableMS}
			if d.Gone = s.options.Now() >= d.Ends; !d.Gone {
				info, err := s.jobInfo(tx, id, jobRow{})
				if err != nil {
					return err
				}
				d.Title, d.Date = info.Title, info.Date
			}
			all = append(all, d)
			return nil
		})
	})
	for _, line := range s.closed.list() {
		if line.Kind == ClosedJob {
			all = append(all, Deleted{ID: line.ID, At: line.At, Gone: true})
		}
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].At > all[b].At })
	return all, err
}

// eachDeleted visits the jobs that are deleted but not removed yet.
func (s *Store) eachDeleted(tx *bbolt.Tx, visit func(id string, row deletedRow) error) error {
	b := tx.Bucket(bucketDeleted)
	if b == nil {
		return nil
	}
	return b.ForEach(func(key, raw []byte) error {
		var row deletedRow
		if err := json.Unmarshal(raw, &row); err != nil {
			return fmt.Errorf("%w: deleted job %s: %w", ErrDamaged, key, err)
		}
		if s.closed.at(ClosedJob, string(key)) > 0 {
			return nil // the next start removes it
		}
		return visit(string(key), row)
	})
}

// RemoveDeleted removes for good the jobs that were deleted thirty days ago, and returns their ids. First closed.ndjson
// on disk says so: no backup and no journal brings them back. Journal files of past months still hold their operations.
func (s *Store) RemoveDeleted() ([]string, error) {
	var due []Closed
	err := s.db.View(func(tx *bbolt.Tx) error {
		return s.eachDeleted(tx, func(id string, row deletedRow) error {
			if s.options.Now() >= row.At+RestorableMS {
				due = append(due, Closed{Kind: ClosedJob, ID: id, At: row.At, By: row.By})
			}
			return nil
		})
	})
	if err != nil || len(due) == 0 {
		return nil, err
	}
	if err := s.closed.add(due...); err != nil {
		return nil, err
	}
	ids := make([]string, len(due))
	for i, line := range due {
		ids[i] = line.ID
	}
	return ids, s.dropGone()
}

// dropGone removes from the database what was removed for good and is there: after a crash, or from a backup.
func (s *Store) dropGone() error {
	var gone []string
	err := s.db.View(func(tx *bbolt.Tx) error {
		for _, line := range s.closed.list() {
			if line.Kind == ClosedJob && tx.Bucket(bucketJobs).Get([]byte(line.ID)) != nil {
				gone = append(gone, line.ID)
			}
		}
		return nil
	})
	if err != nil || len(gone) == 0 {
		return err
	}
	return s.update(func(tx *bbolt.Tx, _ *commit) error {
		for _, id := range gone {
			if err := dropJob(tx, id); err != nil {
				return fmt.Errorf("remove job %s: %w", id, err)
			}
		}
		return nil
	})
}

func dropJob(tx *bbolt.Tx, id string) error {
	if err := dropClientLinks(tx, id); err != nil {
		return err
	}
	logs := tx.Bucket(bucketLogs)
	for _, log := range []string{id, id + sync.OwnSuffix} {
		if logs.Bucket([]byte(log)) == nil {
			continue
		}
		if err := logs.DeleteBucket([]byte(log)); err != nil {
			return err
		}
	}
	if b := tx.Bucket(bucketPhotos); b != nil && b.Bucket([]byte(id)) != nil {
		if err := b.DeleteBucket([]byte(id)); err != nil {
			return err
		}
	}
	if b := tx.Bucket(bucketDeleted); b != nil {
		if err := b.Delete([]byte(id)); err != nil {
			return err
		}
	}
	return tx.Bucket(bucketJobs).Delete([]byte(id))
}
