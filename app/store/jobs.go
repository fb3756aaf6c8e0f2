package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sort"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

// JobInfo is one row of the list of jobs.
type JobInfo struct {
	ID       string
	Title    string
	Date     string // "2006-01-02", empty if open
	Doors    job.Moment
	Archived bool
	Created  int64 // Unix milliseconds
	Changed  int64 // stamp of the last operation, 0 if none
	Ops      uint64
	Waiting  int  // operations in quarantine, not ignored
	Crowded  bool // a link has nearly used up its room

	Shared, Own LogEnd
}

// LogEnd is how far a log goes.
type LogEnd struct {
	Epoch string
	Seq   uint64
	Hash  string // chain hash at Seq, which shows if an older database was put back
}

type jobRow struct {
	Created int64  `json:"made"`
	By      string `json:"by"`
}

func notFound(what, id string) error { return fmt.Errorf("%s %q: %w", what, id, ErrNotFound) }

func jobOf(log string) string { return strings.TrimSuffix(log, sync.OwnSuffix) }

// validJob reports whether the text can be the id of a job: 4 to 40 letters, digits, dashes or underscores.
func validJob(id string) bool {
	if len(id) < 4 || len(id) > 40 {
		return false
	}
	for _, r := range id {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_') {
			return false
		}
	}
	return true
}

// makeJob makes a job and its two logs in a writing transaction.
func (s *Store) makeJob(tx *bbolt.Tx, session Session, id string, now int64) error {
	if !validJob(id) {
		return fmt.Errorf("job id %q: %w", id, sync.ErrRequest)
	}
	if err := putJSON(tx.Bucket(bucketJobs), []byte(id), jobRow{now, session.ID}); err != nil {
		return err
	}
	return errors.Join(s.makeLog(tx, id, now), s.makeLog(tx, id+sync.OwnSuffix, now))
}

// CreateJob makes a job of the changes, all or none, and returns its id. An empty id is replaced by a new one. Only the
// owner may do it.
func (s *Store) CreateJob(ctx context.Context, session Session, id string, changes []job.Change) (string, error) {
	if id == "" {
		id = s.options.NewID()
	}
	_, err := s.write(ctx, session, id, "", changes, true)
	return id, err
}

// Jobs lists the jobs the session may see, archived ones included: all for the owner, newest first; one for a helper.
func (s *Store) Jobs(session Session) ([]JobInfo, error) {
	var all []JobInfo
	err := s.db.View(func(tx *bbolt.Tx) error {
		current, err := s.refresh(tx, session)
		if err != nil {
			return err
		}
		if current.Closed != "" {
			return ErrClosed
		}
		return tx.Bucket(bucketJobs).ForEach(func(key, raw []byte) error {
			if current.Job != "" && current.Job != string(key) {
				return nil
			}
			if at, _, err := s.deletedAt(tx, string(key)); err != nil || at > 0 {
				return err
			}
			var row jobRow
			if err := json.Unmarshal(raw, &row); err != nil {
				return fmt.Errorf("%w: job %s: %w", ErrDamaged, key, err)
			}
			info, err := s.jobInfo(tx, string(key), row)
			all = append(all, info)
			return err
		})
	})
	sort.SliceStable(all, func(a, b int) bool { return all[a].Created > all[b].Created })
	return all, err
}

func (s *Store) jobInfo(tx *bbolt.Tx, id string, row jobRow) (JobInfo, error) {
	both, err := s.ledgers(tx, id)
	if err != nil {
		return JobInfo{}, err
	}
	n, _, err := both[0].note()
	if err != nil {
		return JobInfo{}, err
	}
	brief := job.ReadBrief(n.State)
	info := JobInfo{ID: id, Title: brief.Title, Date: brief.Date, Doors: brief.Doors, Archived: brief.Archived,
		Created: row.Created, Changed: n.State.Last, Ops: n.Seq}
	for i, end := range [...]*LogEnd{&info.Shared, &info.Own} {
		head, err := both[i].Head()
		if err != nil {
			return info, err
		}
		*end = LogEnd{head.Epoch, head.Seq, head.Hash}
	}
	if info.Crowded, err = s.crowded(tx, both[0]); err != nil {
		return info, err
	}
	waiting, err := s.waiting(tx, id)
	info.Waiting = len(waiting)
	return info, err
}

// Ping reports whether the database can be read, by reading one key.
func (s *Store) Ping() error { return s.db.View(checkVersion) }
