package server

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// serveClosed answers a closed session. It stores what the phone sends, and returns nothing of the job except the
// log's end, which shows the phone later whether the server went back in time.
func (x *exchange) serveClosed(resp sync.Response) (sync.Response, error) {
	for _, op := range x.req.Ops {
		if err := x.handInOne(op); err != nil {
			return sync.Response{}, err
		}
	}
	if err := x.laterError(); err != nil {
		return sync.Response{}, err
	}
	held, _, err := x.ledger.HeldBy(x.session.ID)
	if err != nil {
		return sync.Response{}, err
	}
	resp.Acks, resp.Pause, resp.Held = x.acks, x.pauseMS, held
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

// buildsOnHeld reports whether a parent of the operation is in quarantine. The operation then waits too: accepted
// first, it could be stamped before its parent.
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

// Release appends a quarantined operation to the log, with the time it was sent and its own author. It does
// nothing if the log has the operation. The caller removes it from quarantine in the same transaction. The error wraps
// [job.ErrInvalid] for an operation that only an older build would have held.
func Release(l Ledger, held Held, now int64) error {
	if err := held.Op.Check(); err != nil {
		return fmt.Errorf("operation %s cannot be accepted, so ignore it: %w", held.Op.ID, err)
	}
	head, err := l.Head()
	if err != nil {
		return err
	}
	if _, found, err := l.ByID(held.Op.ID); found || err != nil {
		return err
	}
	if err := countOldLog(l, head); err != nil {
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
