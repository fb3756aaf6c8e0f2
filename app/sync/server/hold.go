package server

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// closed takes what a closed session still brings. Nothing is lost, and nothing of the job is given back but a mark by
// which the phone will notice if the server goes back in time.
func (x *exchange) closed(resp sync.Response) (sync.Response, error) {
	for _, op := range x.req.Ops {
		if err := x.handInOne(op); err != nil {
			return sync.Response{}, err
		}
	}
	if err := x.unknowing(); err != nil {
		return sync.Response{}, err
	}
	held, _, err := x.ledger.HeldBy(x.session.ID)
	if err != nil {
		return sync.Response{}, err
	}
	resp.Acks, resp.Pause, resp.Held = x.acks, x.later, held
	resp.Epoch, resp.Head, resp.Seq, resp.Hash = x.head.Epoch, x.head.Seq, x.head.Seq, x.head.Hash
	return resp, x.save()
}

func (x *exchange) handInOne(op job.Op) error {
	known, _, err := x.known(op, x.session.Author)
	if known || err != nil {
		return err
	}
	held, err := x.ledger.IsHeld(op.ID)
	if err != nil {
		return err
	}
	if held {
		x.ack(op.ID, sync.Quarantined, "")
		return nil
	}
	proposed := propose(op.Wall, x.req.Now, x.now)
	before := proposed <= x.session.ClosedAt
	builds, err := x.buildsOnHeld(op)
	if err != nil {
		return err
	}
	if x.session.Closed == sync.Ended && before && !builds {
		return x.takeOne(op, proposed)
	}
	if result, why := x.judge(op); result != sync.OK {
		x.ack(op.ID, result, why)
		return nil
	}
	if forked, err := x.fork(op); forked || err != nil {
		return err
	}
	return x.hold(op, proposed, before)
}

// buildsOnHeld reports whether the author had seen something that is in quarantine: the two must not part, or the later
// one could be stamped before the earlier.
func (x *exchange) buildsOnHeld(op job.Op) (bool, error) {
	for _, id := range op.Parents {
		held, err := x.ledger.IsHeld(id)
		if held || err != nil {
			return held, err
		}
	}
	return false, nil
}

func (x *exchange) hold(op job.Op, proposed int64, before bool) error {
	held := Held{Op: op, Author: x.session.Author, Session: x.session.ID, At: x.now, Proposed: proposed, BeforeEnd: before}
	room, err := x.heldRoom(held)
	if err != nil {
		return err
	}
	if !room {
		x.ack(op.ID, sync.Denied, sync.WhyHeldFull)
		return nil
	}
	if err := x.bind(op.Device); err != nil {
		return err
	}
	x.ack(op.ID, sync.Quarantined, "")
	return x.ledger.Hold(held)
}

// Release takes an operation out of quarantine into the log, stamped as when it was handed in, under its own author. An
// operation the log has already is left as it is. The caller removes it from quarantine in the same transaction. The
// error wraps [job.ErrInvalid] for what only an older build would have held.
func Release(l Ledger, held Held, now int64) error {
	if err := held.Op.Check(); err != nil {
		return fmt.Errorf("operation %s cannot be taken in, so leave it out: %w", held.Op.ID, err)
	}
	head, err := l.Head()
	if err != nil {
		return err
	}
	if _, found, err := l.ByID(held.Op.ID); found || err != nil {
		return err
	}
	if err := countAnew(l, head); err != nil {
		return err
	}
	effective, err := settle(l, head, held.Op, min(held.Proposed, max(now, head.Latest)), 0)
	if err != nil {
		return err
	}
	if err := appendRec(l, &head, job.Rec{Op: held.Op, Effective: effective, Author: held.Author}); err != nil {
		return err
	}
	head.Latest = max(head.Latest, now)
	return l.SetHead(head)
}
