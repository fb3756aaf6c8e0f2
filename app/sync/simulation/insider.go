package simulation

import (
	"fmt"
	"math"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// insider has an ordinary link and posts hostile requests.
type insider struct {
	member int
	role   job.Role
	number uint64
	seen   []job.Rec         // of the shared log
	sent   map[string]job.Op // operations that the insider made
}

func (w *world) addInsider() error {
	in := &insider{role: job.Helper, sent: map[string]job.Op{}}
	if w.chance(30) {
		in.role = job.Lead
	}
	var err error
	in.member, err = w.server.Join("Insider", in.role, start+300*day, start)
	w.insider = in
	return err
}

// intrude posts a hostile request. The server may answer anything; the end of the run checks the log.
func (w *world) intrude() error {
	in := w.insider
	if in == nil {
		return nil
	}
	if w.chance(4) && !w.closed[in.member] {
		w.closed[in.member] = true
		return w.server.Revoke(in.member, w.serverNow())
	}
	if resp, err := w.server.Sync(in.member, jobID, w.envelope("spy"), w.serverNow()); err == nil && len(resp.Recs) > 0 {
		in.seen = resp.Recs
	}
	if len(in.seen) == 0 {
		return nil // nothing to attack yet
	}
	log, req := w.attack(in)
	w.result[Hostile]++
	for _, op := range req.Ops {
		if w.made[op.ID] == nil {
			in.sent[op.ID] = op
		}
	}
	for _, rec := range req.Heal {
		if w.made[rec.ID] == nil {
			in.sent[rec.ID] = rec.Op
		}
	}
	resp, err := w.server.Sync(in.member, log, req, w.serverNow())
	if log != jobID && err == nil {
		return fmt.Errorf("the insider has access to the owner's log")
	}
	if err != nil {
		w.result[Harmless] += len(req.Ops) + len(req.Heal)
	}
	for _, a := range resp.Acks {
		if a.Result != sync.OK {
			w.result[Harmless]++
		}
	}
	w.note("the insider posts %d operations and %d records: %s %v", len(req.Ops), len(req.Heal), ackText(resp.Acks), err)
	return nil
}

func (w *world) envelope(device string) sync.Request {
	return sync.Request{V: sync.WireVersion, Device: device, Now: w.serverNow()}
}

// hostileOp returns an ordinary tick, which attack then changes.
func (w *world) hostileOp(in *insider) job.Op {
	in.number++
	return job.Op{ID: w.newID(), Device: "insider", Number: in.number, Version: 1, Kind: job.Add,
		Entity: fmt.Sprintf("card/make/%d", w.rng.IntN(3)), Delta: 1, Wall: w.serverNow()}
}

// attack picks a hostile request and its log.
func (w *world) attack(in *insider) (string, sync.Request) {
	op, log, req := w.hostileOp(in), jobID, w.envelope("insider")
	victim := in.seen[w.rng.IntN(len(in.seen))]
	device := victim.Device
	if !w.knows(device) { // without a record the server cannot know whose device it was
		device = "insider"
	}
	switch w.rng.IntN(13) {
	case 0: // another phone's id, with the numbers it would use next
		op.Device, op.Number = device, victim.Number+uint64(w.rng.IntN(20))
	case 1: // another phone's id, with a number it never reaches
		op.Device, op.Number = device, math.MaxUint64-uint64(w.rng.IntN(9))
		op.Kind, op.Field, op.Value, op.Delta = job.Set, "done", []byte("true"), 0
	case 2: // parents that do not exist or do not fit
		op.Kind, op.Field, op.Value, op.Delta = job.Set, "done", []byte("false"), 0
		op.Parents = []string{victim.ID, "id999999xffffffff"}
	case 3: // an extreme clock
		op.Kind, op.Field, op.Value, op.Delta = job.Set, "done", []byte("true"), 0
		op.Wall = []int64{math.MaxInt64, math.MinInt64, 1 << 60, -1 << 60, 0}[w.rng.IntN(5)]
		req.Now = []int64{math.MaxInt64, math.MinInt64, 1 << 60, 0, w.serverNow()}[w.rng.IntN(5)]
	case 4: // a field that only the owner may change
		op.Kind, op.Entity, op.Field, op.Value, op.Delta = job.Set, "brief", "away", []byte("true"), 0
	case 5: // the owner's log
		op.Kind, op.Entity, op.Field, op.Value, op.Delta = job.Set, "own/contact", "name", []byte(`"mine"`), 0
		log = jobID + sync.OwnSuffix
	case 6: // huge
		op.Kind, op.Field, op.Value, op.Delta = "wave", "hand", []byte(`"`+strings.Repeat("x", job.MaxOpBytes+1)+`"`), 0
	case 7: // more than a request may hold
		for range sync.MaxOps {
			req.Ops = append(req.Ops, w.hostileOp(in))
		}
	case 8: // another operation under the id of an existing one
		// The server may accept the id of an operation that a restore has lost: see the package comment.
		if w.made[victim.ID] != nil && w.onServer(victim.ID) {
			op.ID, op.Delta = victim.ID, 999
		}
	case 9: // a record that this server never sealed
		rec := victim
		rec.Op, rec.Author = op, job.Author{Role: job.Owner, Name: "Owner"}
		rec.Effective = start + 3000*day
		req.Heal = []job.Rec{rec, victim}
	case 10: // undoing somebody else's operation, which the rules allow
		op.Kind, op.Entity, op.Field, op.Delta = job.Undo, victim.Entity, victim.ID, 0
	case 11:
		op.Kind, op.Delta = "wave", 0
		if op.Value = nested(3); w.kept(OwnKinds) {
			break
		}
		op = w.hostileOp(in)
	default: // deep
		if w.kept(Depth) {
			w.deepen(&op)
		}
	}
	req.Ops = append(req.Ops, op)
	return log, req
}

// deepen returns the operation a value nested deeper than the rules allow.
func (w *world) deepen(op *job.Op) {
	op.Kind, op.Field, op.Value, op.Delta = job.Set, "done", nested(maxDepth+1+w.rng.IntN(9000)), 0
	if w.chance(50) || w.options.Sabotage == NoDepth {
		op.Kind = "wave"
	}
	w.deep = true
}

// knows reports whether the server has a record of the device.
func (w *world) knows(device string) bool {
	for _, log := range w.logs() {
		recs, err := w.server.Recs(log)
		if err != nil && w.err == nil {
			w.err = err
		}
		for _, r := range recs {
			if r.Device == device {
				return true
			}
		}
	}
	return false
}

// allAllowed checks that the author of every record in the log was allowed to write it.
func (w *world) allAllowed(log string, recs []job.Rec) error {
	honest := map[string]bool{}
	for _, m := range w.made {
		honest[m.op.Device] = true
	}
	for _, r := range recs {
		m := w.made[r.ID]
		if m != nil {
			if m.op.Kind != r.Kind || m.op.Entity != r.Entity || m.op.Field != r.Field || m.op.Delta != r.Delta ||
				string(m.op.Value) != string(r.Value) {
				return fmt.Errorf("operation %s is changed in the log", r.ID[2:8])
			}
		}
		if late := w.latest + int64(len(recs)); r.Effective > late {
			return fmt.Errorf("operation %s stands %d ms in the future", r.ID[2:8], r.Effective-late)
		}
		if m != nil {
			continue
		}
		if w.insider == nil {
			return fmt.Errorf("operation %s was made by nobody", r.ID)
		}
		if _, sent := w.insider.sent[r.ID]; !sent {
			return fmt.Errorf("operation %s was made by nobody", r.ID)
		}
		if why := w.forbidden(r, honest); why != "" {
			return fmt.Errorf("the insider's operation %s is in the log: %s", r.ID[2:8], why)
		}
	}
	return nil
}

// forbidden returns why the insider may not make an operation, or "". It repeats the table of roles, to share no code
// with the server.
func (w *world) forbidden(r job.Rec, honest map[string]bool) string {
	noun, _, _ := strings.Cut(r.Entity, "/")
	own := noun == "pack" || noun == "card"
	fields := map[string]bool{"done": true, "have": true, "stands": true, "back": true, "taken": true,
		"took": true, "bought": true, "unneeded": true}
	switch {
	case w.insider.role == job.Helper && (!own || r.Kind == job.Set && !fields[r.Field]),
		w.insider.role == job.Lead && !own && noun != "piece" && noun != "added" && noun != "box":
		return "their role does not allow it"
	case r.Author.Role != w.insider.role:
		return "under another role"
	case len(r.Value) > job.MaxOpBytes:
		return "it is too large"
	case depthOf(r.Value) > maxDepth && w.kept(Depth):
		return "it is too deep"
	case r.Kind == "wave" && w.kept(OwnKinds):
		return "its kind is unknown"
	case honest[r.Device] && w.kept(BoundDevices):
		return "it has another phone's id"
	}
	return ""
}
