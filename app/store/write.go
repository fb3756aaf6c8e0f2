package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// Refused names the change that made a write fail. Nothing of the write was saved.
type Refused struct {
	Change job.Change
	Result sync.Result
	Why    string
	Pause  time.Duration // when to try again, if it was only put off
}

func (r *Refused) Error() string {
	return fmt.Sprintf("change %s %s refused (%s): %s; nothing was changed", r.Change.Entity, r.Change.Field, r.Result,
		r.Why)
}

// Is reports [ErrForbidden] for a change that the role does not allow, [ErrJobFull] beyond a total limit, [ErrLater]
// beyond an hourly limit, and [job.ErrInvalid] for an invalid change.
func (r *Refused) Is(target error) bool {
	full := sync.IsFull(r.Why)
	switch target {
	case ErrForbidden:
		return r.Result == sync.Denied && !full
	case ErrJobFull:
		return full
	case ErrLater:
		return r.Result == sync.Later
	}
	return target == job.ErrInvalid && r.Result == sync.Invalid
}

// Write makes the changes in a job for a form posted to the server, without a phone core. They become operations of the
// session's own device here, each in its entity's log, and pass the same checks as a phone's. All are saved or none; a
// [*Refused] names the one at fault. They are on disk when Write returns, and the operations are in the order of the
// changes.
func (s *Store) Write(ctx context.Context, session Session, jobID string, changes []job.Change) ([]job.Op, error) {
	return s.write(ctx, session, jobOf(jobID), "", changes, false)
}

func (s *Store) write(ctx context.Context, session Session, jobID string, post job.Post, changes []job.Change,
	create bool) ([]job.Op, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var ops []job.Op
	err := s.update(func(tx *bbolt.Tx, done *commit) error {
		current, err := s.enter(tx, session, jobID)
		if err != nil {
			return err
		}
		if current.Closed != "" {
			return ErrClosed
		}
		if err := s.live(tx, jobID); err != nil {
			return err
		}
		repeat := create && post != "" && current.Role == job.Owner && tx.Bucket(bucketJobs).Get([]byte(jobID)) != nil
		if !repeat {
			if err := s.readyJob(tx, current, jobID, create); err != nil {
				return err
			}
		}
		w := formWriter{store: s, tx: tx, session: current, done: done, now: s.options.Now(), post: post, creates: create}
		ops, err = w.write(jobID, changes)
		return err
	})
	if err != nil {
		return nil, err
	}
	return ops, nil
}

// Hold quarantines the changes of a form that came after the session's link was closed. They pass the same checks as
// what a phone sends late, and wait until the owner accepts them. All are held or none; a [*Refused] names the one
// at fault, or says that too much waits already. The form may come again.
func (s *Store) Hold(ctx context.Context, session Session, post Post, changes []job.Change) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx, done *commit) error {
		current, err := s.enter(tx, session, post.Job)
		if err != nil {
			return err
		}
		if current.Closed == "" {
			return fmt.Errorf("hold: the link is open: %w", ErrForbidden)
		}
		w := formWriter{store: s, tx: tx, session: current, done: done, now: s.options.Now(), post: post.ID}
		_, err = w.write(post.Job, changes)
		return err
	})
}

func (s *Store) readyJob(tx *bbolt.Tx, session Session, jobID string, create bool) error {
	there := tx.Bucket(bucketJobs).Get([]byte(jobID)) != nil
	switch {
	case there && create:
		return fmt.Errorf("job %q is there already: %w", jobID, ErrForbidden)
	case !there && !create:
		return notFound("job", jobID)
	case !there && session.Role != job.Owner:
		return fmt.Errorf("make a job: %w", ErrForbidden)
	case !there:
		return s.makeJob(tx, session, jobID, s.options.Now())
	}
	return nil
}

// formWriter writes one session's changes in one transaction.
type formWriter struct {
	store   *Store
	tx      *bbolt.Tx
	session Session
	done    *commit
	now     int64
	post    job.Post // names the operations, so that a repeat writes nothing; "": they take ids of their own
	creates bool     // the changes are all of a new job
}

func (w formWriter) write(jobID string, changes []job.Change) ([]job.Op, error) {
	row, put, err := w.store.writer(w.tx, w.session)
	if err != nil {
		return nil, err
	}
	if err := w.ownDevice(jobID, &row); err != nil {
		return nil, err
	}
	writer := job.OpWriter{Device: row.Device, Number: row.Number, LastWall: row.LastWall, Counter: row.Counter,
		Now: func() int64 { return w.now }, NewID: w.store.options.NewID}
	states := map[bool]*job.State{}
	for _, private := range []bool{false, true} {
		f, _, err := w.store.fold(w.tx, logOf(jobID, private))
		if err != nil {
			return nil, err
		}
		states[private] = f.State
	}
	ops := make([]job.Op, len(changes))
	split := map[bool][]int{}
	for i, c := range changes {
		private := job.Private(c.Entity)
		if w.post != "" {
			writer.NewID = func() string { return w.post.OpID(private, len(split[private])) }
		}
		ops[i] = writer.Write(states[private], c)
		split[private] = append(split[private], i)
	}
	for _, private := range []bool{false, true} {
		fresh, err := w.fresh(logOf(jobID, private), ops, split[private])
		if err != nil {
			return nil, err
		}
		if err := w.serve(logOf(jobID, private), changes, ops, fresh); err != nil {
			return nil, err
		}
	}
	row.Device, row.Number, row.LastWall, row.Counter = writer.Device, writer.Number, writer.LastWall, writer.Counter
	return ops, put(row)
}

// ownDevice gives the session a new device id if somebody else has used its own. That can happen in a database of an
// older build, which bound no ids.
func (w formWriter) ownDevice(jobID string, row *sessionRow) error {
	l, found := w.store.ledger(w.tx, jobID)
	if !found {
		return notFound("log", jobID)
	}
	owner, err := l.DeviceOf(row.Device)
	if err == nil && owner != "" && owner != origin(w.session.ID, w.session.From) {
		row.Device, row.Number = w.store.options.NewID(), 0
	}
	return err
}

func logOf(jobID string, private bool) string {
	if private {
		return jobID + sync.OwnSuffix
	}
	return jobID
}

// serve sends the chosen operations to the log in requests, as a phone would.
func (w formWriter) serve(log string, changes []job.Change, ops []job.Op, chosen []int) error {
	if len(chosen) == 0 {
		return nil
	}
	l, found := w.store.ledger(w.tx, log)
	if !found {
		return notFound("log", log)
	}
	for len(chosen) > 0 {
		part := chosen[:min(len(chosen), sync.MaxOps)]
		chosen = chosen[len(part):]
		head, err := l.Head()
		if err != nil {
			return err
		}
		req := sync.Request{V: sync.WireVersion, Waits: true, Device: ops[part[0]].Device, Now: w.now,
			Cursor: sync.Cursor{Epoch: head.Epoch, Seq: head.Seq, Hash: head.Hash}}
		for _, i := range part {
			req.Ops = append(req.Ops, ops[i])
		}
		resp, err := server.Serve(l, w.session.forSync(), req, w.now)
		if errors.Is(err, sync.ErrPrivate) {
			return &Refused{Change: changes[part[0]], Result: sync.Denied, Why: "this is for the owner alone"}
		}
		if err != nil {
			return err
		}
		for n, ack := range resp.Acks {
			if ack.Result != sync.OK && (ack.Result != sync.Quarantined || w.session.Closed == "") {
				return &Refused{changes[part[n]], ack.Result, ack.Why, time.Duration(resp.Pause) * time.Millisecond}
			}
		}
	}
	return w.done.add(l)
}
