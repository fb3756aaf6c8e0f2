package store

import (
	"context"
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/server"

	"go.etcd.io/bbolt"
)

// Sync answers a phone's request on one log: the job's id, or that with [sync.OwnSuffix]. When it returns, everything
// it stored is on disk. It makes an unknown job for the owner. Errors wrap [ErrNotFound], [ErrForbidden], those of
// app/sync, or [ErrDirectory] if the disk refuses; nothing was changed then.
func (s *Store) Sync(ctx context.Context, session Session, log string, req sync.Request) (sync.Response, error) {
	if err := ctx.Err(); err != nil {
		return sync.Response{}, err
	}
	if err := req.Check(); err != nil {
		return sync.Response{}, err
	}
	if len(req.Ops) == 0 && len(req.Heal) == 0 {
		resp, made, err := s.pull(session, log, req)
		if made || err != nil {
			return resp, err
		}
	}
	var resp sync.Response
	err := s.update(func(tx *bbolt.Tx, done *commit) error {
		done.by = session.ID
		current, err := s.enter(tx, session, log)
		if err != nil {
			return err
		}
		l, found := s.ledger(tx, log)
		if !found {
			if current.Role != job.Owner || current.Closed != "" {
				return notFound("job", jobOf(log))
			}
			if err := s.makeJob(tx, current, jobOf(log), s.options.Now()); err != nil {
				return err
			}
			l, _ = s.ledger(tx, log)
		}
		if resp, err = server.Serve(l, current.forSync(), req, s.options.Now()); err != nil {
			return err
		}
		return done.add(l)
	})
	if err != nil {
		return sync.Response{}, err
	}
	return resp, nil
}

// pull answers a request without operations, in a reading transaction. The second result is false if the job must be
// made first.
func (s *Store) pull(session Session, log string, req sync.Request) (resp sync.Response, made bool, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		current, err := s.enter(tx, session, log)
		if err != nil {
			return err
		}
		l, found := s.ledger(tx, log)
		if !found {
			return nil
		}
		made = true
		resp, err = server.Serve(l, current.forSync(), req, s.options.Now())
		return err
	})
	return resp, made, err
}

// enter reads the session again and checks that it may use the log.
func (s *Store) enter(tx *bbolt.Tx, session Session, log string) (Session, error) {
	current, err := s.refresh(tx, session)
	if err != nil {
		return current, err
	}
	if current.Job != "" && current.Job != jobOf(log) {
		return current, notFound("job", jobOf(log))
	}
	if _, gone, err := s.deletedAt(tx, jobOf(log)); err != nil {
		return current, err
	} else if gone {
		return current, ErrJobGone
	}
	if strings.HasSuffix(log, sync.OwnSuffix) && current.Role != job.Owner {
		return current, fmt.Errorf("log %s: %w", log, ErrForbidden)
	}
	return current, nil
}

// commit collects what belongs to a transaction besides bbolt's own work.
type commit struct {
	store *Store
	news  []News
	by    string // the session whose phone sent the change, if a phone did

	journaled bool // lines were written to the journal
}

// add writes the ledger's new lines to the journal, and queues news if records were appended.
func (c *commit) add(l *boltLedger) error {
	if l.appended && !strings.HasSuffix(l.log, sync.OwnSuffix) {
		if err := l.keepNote(); err != nil {
			return err
		}
	}
	if err := c.store.journal.write(c.store.options.Now(), l.lines); err != nil {
		return err
	}
	c.journaled = c.journaled || len(l.lines) > 0
	l.lines = nil
	if !l.appended {
		return nil
	}
	l.appended = false
	head, err := l.Head()
	c.news = append(c.news, News{l.log, head.Epoch, head.Seq, c.by})
	return err
}

// update runs one writing transaction and sends its news after the commit.
func (s *Store) update(do func(*bbolt.Tx, *commit) error) error {
	done := commit{store: s}
	err := s.commit(&done, do)
	if err != nil || done.journaled { // success counts only with the journal: the database may have room inside its file
		s.wrote(err)
	}
	return err
}

func (s *Store) commit(done *commit, do func(*bbolt.Tx, *commit) error) error {
	var doing error
	err := s.db.Update(func(tx *bbolt.Tx) error {
		doing = do(tx, done)
		return doing
	})
	if err != nil && doing == nil { // the disk refused the commit
		return fmt.Errorf("%w: %s: %w; nothing was changed", ErrDirectory, s.dir, err)
	}
	if err != nil {
		return err
	}
	for _, n := range done.news {
		s.news.tell(n)
	}
	return nil
}
