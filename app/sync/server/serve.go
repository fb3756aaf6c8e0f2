// Package server is the server's half of the exchange. It stamps and seals operations, quarantines those from closed
// links, enforces limits, and answers with the records that a phone lacks. It writes only through a [Ledger].
package server

import (
	"errors"
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// maxPageBytes bounds the values in one page of records.
const maxPageBytes = 2 << 20

// Serve answers a request on a log at the server's clock, in Unix milliseconds. It stores healed records and new
// operations, and returns the records after the cursor. The caller has checked that the session may see the log. The
// caller commits before it replies, and undoes everything on an error.
//
// The same request gives the same acknowledgements again: OK if the log has the operation under this device and number,
// Duplicate if under others.
func Serve(l Ledger, session Session, req sync.Request, now int64) (sync.Response, error) {
	if err := req.Check(); err != nil {
		return sync.Response{}, err
	}
	if strings.HasSuffix(l.Log(), sync.OwnSuffix) && session.Author.Role != job.Owner {
		return sync.Response{}, sync.ErrPrivate
	}
	if req.As != "" && req.As != sync.Identity(session.Author) {
		return sync.Response{}, sync.ErrOther
	}
	head, err := l.Head()
	if err != nil {
		return sync.Response{}, err
	}
	x := exchange{ledger: l, session: session, req: req, head: head, now: max(now, head.Latest), clock: now}
	resp := sync.Response{V: sync.WireVersion, MinV: sync.MinWireVersion, Now: now, Closed: session.Closed}
	if req.Closed && session.Closed == "" {
		resp.Open, resp.Epoch, resp.Head = true, head.Epoch, head.Seq
		return resp, nil
	}
	rewound, err := x.rewound()
	if err != nil {
		return sync.Response{}, err
	}
	if rewound {
		resp.Rewound, resp.Epoch, resp.Head = true, head.Epoch, head.Seq
		return resp, nil
	}
	if len(req.Ops)+len(req.Heal) > 0 {
		if err := countOldLog(l, head); err != nil {
			return sync.Response{}, err
		}
	}
	if err := x.heal(); err != nil {
		return sync.Response{}, err
	}
	if session.Closed != "" {
		return x.serveClosed(resp)
	}
	if err := x.take(); err != nil {
		return sync.Response{}, err
	}
	if err := x.laterError(); err != nil {
		return sync.Response{}, err
	}
	if err := x.save(); err != nil {
		return sync.Response{}, err
	}
	resp.Acks, resp.Pause = x.acks, x.pauseMS
	return x.page(resp)
}

// exchange is one request being served.
type exchange struct {
	ledger     Ledger
	session    Session
	req        sync.Request
	head       Head
	now        int64 // the clock for stamps, which never goes back
	acks       []sync.Ack
	forked     map[string]bool // devices that two phones use
	unanswered map[string]bool // operations refused or skipped because of a fork
	bound      map[string]bool // devices known to be the session's
	clock      int64           // the server's clock
	pauseMS    int64           // how long the phone waits with operations that were put off
	changed    bool
}

func (x *exchange) ack(id string, r sync.Result, why string) {
	x.acks = append(x.acks, sync.Ack{ID: id, Result: r, Why: why})
}

func (x *exchange) add(rec job.Rec) error {
	x.changed = true
	return appendRec(x.ledger, &x.head, rec)
}

func (x *exchange) save() error {
	if !x.changed {
		return nil
	}
	x.head.Latest = max(x.head.Latest, x.now)
	return x.ledger.SetHead(x.head)
}

// rewound reports whether the phone has read beyond this log's end, or another version of it.
func (x *exchange) rewound() (bool, error) {
	c := x.req.Cursor
	if c.Epoch == "" {
		return c.Seq > 0, nil
	}
	if c.Epoch != x.head.Epoch || c.Seq > x.head.Seq {
		return true, nil
	}
	if c.Seq == 0 {
		return false, nil
	}
	hash, found, err := x.ledger.HashAt(c.Seq)
	return !found || hash != c.Hash, err
}

// take stamps and appends the request's operations.
func (x *exchange) take() error {
	for _, op := range x.req.Ops {
		if err := x.takeOne(op, propose(op.Wall, x.req.Now, x.now)); err != nil {
			return err
		}
	}
	return nil
}

func (x *exchange) takeOne(op job.Op, proposed int64) error {
	known, _, err := x.known(op, x.session.Author)
	if known || err != nil {
		return err
	}
	result, why := x.judge(op)
	if result == sync.OK {
		result, why, err = x.room(op)
	}
	if result != sync.OK || err != nil {
		x.ack(op.ID, result, why)
		return err
	}
	forked, err := x.fork(op)
	if forked || err != nil {
		return err
	}
	effective, err := settle(x.ledger, x.head, op, proposed, 0)
	if err != nil {
		return err
	}
	if err := x.bind(op.Device); err != nil {
		return err
	}
	x.ack(op.ID, sync.OK, "")
	before := x.head.Bytes
	if err := x.add(job.Rec{Op: op, Effective: effective, Author: x.session.Author}); err != nil {
		return err
	}
	return x.countHour(x.head.Bytes - before)
}

// fork refuses an operation whose device id or number belongs to another phone, and all that follow it from that
// device: stored first, they would be stamped before their parents. A phone may also send operations of another device
// id that build on a refused one. Those get no answer, and the phone sends them again later.
func (x *exchange) fork(op job.Op) (bool, error) {
	foreign, err := x.foreign(op.Device)
	if err != nil {
		return false, err
	}
	first, taken, err := x.ledger.ByNumber(op.Device, op.Number)
	if err != nil {
		return false, err
	}
	if x.forked == nil {
		x.forked, x.unanswered = map[string]bool{}, map[string]bool{}
	}
	if foreign || taken && first != op.ID {
		x.forked[op.Device] = true
	}
	waits := x.forked[op.Device]
	switch {
	case foreign:
		x.ack(op.ID, sync.Fork, "another phone has this device id")
	case waits:
		x.ack(op.ID, sync.Fork, "another operation has this device's number")
	}
	for _, id := range op.Parents {
		waits = waits || x.unanswered[id]
	}
	if waits {
		x.unanswered[op.ID] = true
	}
	return waits, nil
}

// known acknowledges an operation whose id is in the log. It is the same operation unless somebody else took its id.
func (x *exchange) known(op job.Op, by job.Author) (known, same bool, err error) {
	rec, found, err := x.ledger.ByID(op.ID)
	if err != nil || !found {
		return false, false, err
	}
	if sync.IDTaken(rec, op, by) {
		x.ack(op.ID, sync.Denied, sync.WhyIDTaken)
		return true, false, nil
	}
	if rec.Device == op.Device && rec.Number == op.Number {
		x.ack(op.ID, sync.OK, "")
	} else {
		x.ack(op.ID, sync.Duplicate, "")
		if sync.Identity(rec.Author) == sync.Identity(by) {
			return true, true, x.madeTwice(op, rec)
		}
	}
	return true, true, nil
}

// madeTwice handles an operation made twice from the same form, on a copy of the phone. Later operations there build on
// the second one and so on its parents, which the first may not name. It adds a restamp above those parents.
func (x *exchange) madeTwice(op job.Op, first job.Rec) error {
	on := Register(op)
	if on == "" {
		return nil
	}
	moved, err := x.ledger.Restamps(on)
	if err != nil {
		return err
	}
	above := first.Effective
	for _, id := range op.Parents {
		parent, found, err := x.ledger.ByID(id)
		if err != nil {
			return err
		}
		if found && id != op.ID {
			above = max(above, parent.Effective+1, firstStamp(moved, parent)+1)
		}
	}
	if above == first.Effective {
		return nil
	}
	return x.addRestamp(op, above, first.Effective)
}

// judge decides whether this session may put the operation into this log at all.
func (x *exchange) judge(op job.Op) (sync.Result, string) {
	if err := op.Check(); err != nil {
		return sync.Invalid, err.Error()
	}
	if job.Private(op.Entity) != strings.HasSuffix(x.ledger.Log(), sync.OwnSuffix) {
		return sync.Invalid, "the operation belongs in the job's other log"
	}
	if role := x.session.Author.Role; !role.MayField(op.Kind, op.Entity, op.Field) {
		if role.May(op.Kind, op.Entity) && !op.Kind.Known() {
			return sync.Denied, "this server does not know this kind of change, so only the owner may make it; update the server"
		}
		return sync.Denied, "this link does not allow that change"
	}
	return sync.OK, ""
}

// heal stores records that this server once stamped and has lost. They keep their stamp unless a parent has come back
// with a later one. Without a good seal only the owner may return a record; with one, even a closed session may.
func (x *exchange) heal() error {
	for _, rec := range x.req.Heal {
		sealed := Verify(x.ledger.Key(), x.ledger.Log(), rec)
		trusted := sealed || x.session.Author.Role == job.Owner && x.session.Closed == ""
		known, same, err := x.known(rec.Op, rec.Author)
		if err == nil && same && trusted {
			err = x.restamped(rec)
		}
		if err != nil {
			return err
		}
		if known {
			continue
		}
		if !trusted {
			x.ack(rec.ID, sync.Denied, "the record has no seal of this server")
			continue
		}
		if err := rec.Op.Check(); err != nil {
			x.ack(rec.ID, sync.Invalid, err.Error())
			continue
		}
		if job.Private(rec.Entity) != strings.HasSuffix(x.ledger.Log(), sync.OwnSuffix) {
			x.ack(rec.ID, sync.Invalid, "the record belongs in the job's other log")
			continue
		}
		proposed := rec.Effective
		if !sealed {
			proposed = min(proposed, x.now)
		}
		if rec.Effective, err = settle(x.ledger, x.head, rec.Op, proposed, proposed); err != nil {
			return err
		}
		if rec.Effective != proposed { // operations that build on it must stay above its new stamp
			if err := x.addRestamp(rec.Op, proposed, rec.Effective); err != nil {
				return err
			}
		}
		x.ack(rec.ID, sync.OK, "")
		if err := errors.Join(x.inherit(rec), x.add(rec)); err != nil {
			return err
		}
	}
	return nil
}

// restamped adds a restamp if the returned record has another stamp than the one in the log.
func (x *exchange) restamped(rec job.Rec) error {
	now, found, err := x.ledger.ByID(rec.ID)
	if err != nil || !found || now.Effective == rec.Effective {
		return err
	}
	return x.addRestamp(rec.Op, rec.Effective, now.Effective)
}

func (x *exchange) addRestamp(op job.Op, before, now int64) error {
	on := Register(op)
	if on == "" {
		return nil
	}
	if moved, err := x.ledger.Restamps(on); err != nil || len(moved) >= MaxRestamps {
		return err
	}
	return x.ledger.AddRestamp(on, Restamp{op.ID, before, now})
}

// page fills in the records after the cursor.
func (x *exchange) page(resp sync.Response) (sync.Response, error) {
	resp.Epoch, resp.Head, resp.Safe = x.head.Epoch, x.head.Seq, x.head.Safe
	resp.Digest, resp.Count = sync.FormatDigest(x.head.Digest), x.head.Count
	limit := sync.MaxRecs
	if x.req.Max > 0 {
		limit = min(limit, x.req.Max)
	}
	recs, err := x.ledger.Read(x.req.Cursor.Seq+1, limit)
	if err != nil {
		return sync.Response{}, fmt.Errorf("read log %s: %w", x.ledger.Log(), err)
	}
	if err := x.withhold(recs); err != nil {
		return sync.Response{}, fmt.Errorf("read log %s: %w", x.ledger.Log(), err)
	}
	bytes := 0
	for i, r := range recs {
		if bytes += len(r.Value); bytes > maxPageBytes && i > 0 {
			recs = recs[:i]
			break
		}
	}
	resp.Recs = recs
	resp.Seq, resp.Hash = x.req.Cursor.Seq, x.req.Cursor.Hash
	if len(recs) > 0 {
		resp.Seq = recs[len(recs)-1].Seq
		hash, found, err := x.ledger.HashAt(resp.Seq)
		if err != nil || !found {
			return sync.Response{}, fmt.Errorf("chain hash at %d of log %s is missing: %w", resp.Seq, x.ledger.Log(), err)
		}
		resp.Hash = hash
	}
	resp.More = resp.Seq < resp.Head
	return resp, nil
}
