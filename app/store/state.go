package store

import (
	stdsync "sync"

	"garlandry/app/job"
	"garlandry/app/sync"

	"go.etcd.io/bbolt"
)

const (
	statesKept    = 16   // folded states in memory
	snapshotAfter = 1000 // records between two snapshots on disk
)

// folded is the state of a log up to a sequence. It never changes once it is in [states].
type folded struct {
	Epoch string     `json:"e"`
	Seq   uint64     `json:"s"`
	State *job.State `json:"state"`
}

// states caches the states of the logs used last.
type states struct {
	mu    stdsync.Mutex
	byLog map[string]folded
	used  []string // oldest first
}

func newStates() *states { return &states{byLog: map[string]folded{}} }

func (c *states) get(log string) (folded, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	f, found := c.byLog[log]
	return f, found
}

// keep caches the state unless a newer one is there.
func (c *states) keep(log string, f folded) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if have, found := c.byLog[log]; found && have.Epoch == f.Epoch && have.Seq > f.Seq {
		return
	}
	c.byLog[log] = f
	for i, name := range c.used {
		if name == log {
			c.used = append(c.used[:i], c.used[i+1:]...)
			break
		}
	}
	if c.used = append(c.used, log); len(c.used) > statesKept {
		delete(c.byLog, c.used[0])
		c.used = c.used[1:]
	}
}

// State returns the job's shared and private state, folded from snapshot and tail. Other callers share them, so clone
// them before you change anything. The error wraps [ErrNotFound] for an unknown job.
func (s *Store) State(jobID string) (shared, private *job.State, err error) {
	var stale []string
	err = s.db.View(func(tx *bbolt.Tx) error {
		if tx.Bucket(bucketJobs).Get([]byte(jobID)) == nil {
			return notFound("job", jobID)
		}
		if err := s.live(tx, jobID); err != nil {
			return err
		}
		for _, part := range []struct {
			log  string
			into **job.State
		}{{jobID, &shared}, {jobID + sync.OwnSuffix, &private}} {
			f, old, err := s.fold(tx, part.log)
			if err != nil {
				return err
			}
			*part.into = f.State
			if old {
				stale = append(stale, part.log)
			}
		}
		return nil
	})
	for _, log := range stale {
		_ = s.snapshot(log) // only saves time, and may fail on a full disk
	}
	return shared, private, err
}

// fold returns a log's state as of the transaction's last commit, or newer. Call it before the transaction appends
// anything. Old reports that the snapshot on disk is far behind.
func (s *Store) fold(tx *bbolt.Tx, log string) (f folded, old bool, err error) {
	l, found := s.ledger(tx, log)
	if !found {
		return folded{State: job.NewState()}, false, nil
	}
	head, err := l.Head()
	if err != nil {
		return f, false, err
	}
	f, found = s.states.get(log)
	if found && f.Epoch == head.Epoch && f.Seq >= head.Seq {
		return f, false, nil
	}
	if found && f.Epoch == head.Epoch {
		f.State = f.State.Clone()
	} else {
		f = folded{}
		snapped, err := getJSON(l.bucket, keySnapshot, &f)
		if err != nil || !snapped || f.Epoch != head.Epoch || f.Seq > head.Seq || f.State == nil || f.State.Stale {
			f = folded{Epoch: head.Epoch, State: job.NewState()} // no usable snapshot: fold the whole log
		}
		old = head.Seq-f.Seq >= snapshotAfter
	}
	recs, err := l.Read(f.Seq+1, int(head.Seq-f.Seq))
	if err != nil {
		return f, false, err
	}
	if f.State.ApplyAll(recs); f.State.Stale { // a folded operation was set aside, or one set aside counts again
		if recs, err = l.Read(1, int(head.Seq)); err != nil {
			return f, false, err
		}
		f.State, old = job.Fold(recs...), true
	}
	f.Seq = head.Seq
	s.states.keep(log, f)
	return f, old, nil
}

// snapshot stores the log's state. Opening the log then reads only the tail.
func (s *Store) snapshot(log string) error {
	return s.db.Update(func(tx *bbolt.Tx) error {
		f, _, err := s.fold(tx, log)
		if err != nil {
			return err
		}
		l, found := s.ledger(tx, log)
		if !found {
			return notFound("log", log)
		}
		return putJSON(l.bucket, keySnapshot, f)
	})
}
