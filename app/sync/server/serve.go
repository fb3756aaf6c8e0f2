// Package server is the server's half of the exchange. It stamps and seals what phones send, holds back what comes from
// closed links, keeps the limits, and answers with the records a phone lacks. It writes through a [Ledger] only.
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

// Serve answers a request on a log at the server's clock, in Unix milliseconds: it takes in what is healed and what is
// new, stamps it, and gives the records after the cursor. The caller has checked that the session may see the log. It
// writes through the ledger only; the caller commits before it replies, and undoes everything on an error.
//
// The same request gives the same acknowledgements again: OK for an operation the log has under this device and number,
// Duplicate if it has it under others.
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
		if err := countAnew(l, head); err != nil {
			return sync.Response{}, err
		}
	}
	if err := x.heal(); err != nil {
		return sync.Response{}, err
	}
	if session.Closed != "" {
		return x.closed(resp)
	}
	if err := x.take(); err != nil {
		return sync.Response{}, err
	}
	if err := x.unknowing(); err != nil {
		return sync.Response{}, err
	}
	if err := x.save(); err != nil {
		return sync.Response{}, err
	}
	resp.Acks, resp.Pause = x.acks, x.later
	return x.page(resp)
}

// exchange is one request being answered.
type exchange struct {
	ledger  Ledger
	session Session
	req     sync.Request
	head    Head
	now     int64 // never before an earlier stamp's
	acks    []sync.Ack
	forked  map[string]bool // devices that two phones use
	waits   map[string]bool // operations that were not taken for that
	bound   map[string]bool // devices known to be the session's
	clock   int64           // the server's, as it is
	later   int64           // how long to wait with what was put off, in milliseconds
	changed bool
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

// rewound reports whether the phone has read farther than, or other than, this log goes.
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
// device: taken before it, they would be stamped before what their author had seen. What another device made upon
// these, after a phone took back operations of its earlier device id, gets no answer: the phone sends it again after
// them.
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
		x.forked, x.waits = map[string]bool{}, map[string]bool{}
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
		waits = waits || x.waits[id]
	}
	if waits {
		x.waits[op.ID] = true
	}
	return waits, nil
}

// known answers for an operation whose id the log has already. It is the same one unless somebody else took its id.
func (x *exchange) known(op job.Op, by job.Author) (known, same bool, err error) {
	rec, found, err := x.ledger.ByID(op.ID)
	if err != nil || !found {
		return false, false, err
	}
	if sync.Taken(rec, op, by) {
		x.ack(op.ID, sync.Denied, sync.WhyTaken)
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

// madeTwice notes where an operation would stand that was made a second time, of the same form on a copy of the phone:
// what is made upon it there is made in sight of that one's parents, which the first may not name.
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

// judge says whether the operation may ever enter this log from this session.
func (x *exchange) judge(op job.Op) (sync.Result, string) {
	if err := op.Check(); err != nil {
		return sync.Invalid, err.Error()
	}
	if job.Private(op.Entity) != strings.HasSuffix(x.ledger.Log(), sync.OwnSuffix) {
		return sync.Invalid, "the operation belongs into the job's other log"
	}
	if role := x.session.Author.Role; !role.MayField(op.Kind, op.Entity, op.Field) {
		if role.May(op.Kind, op.Entity) && !op.Kind.Known() {
			return sync.Denied, "this server does not know such a change, so only the owner may make it; update the server"
		}
		return sync.Denied, "this link does not allow that change"
	}
	return sync.OK, ""
}

// heal takes back records that this server once stamped and has lost. The original stamp is kept, unless what the
// author had seen has meanwhile come back with a later one. Only the owner may bring a record without a good seal; with
// one even a closed session may, for it brings nothing that was not taken before.
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
			x.ack(rec.ID, sync.Invalid, "the record belongs into the job's other log")
			continue
		}
		proposed := rec.Effective
		if !sealed {
			proposed = min(proposed, x.now)
		}
		if rec.Effective, err = settle(x.ledger, x.head, rec.Op, proposed, proposed); err != nil {
			return err
		}
		if rec.Effective != proposed { // what was made in its sight has to stay above it, and above what stood below it
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

// restamped notes that a record comes back which was stamped anew meanwhile.
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
