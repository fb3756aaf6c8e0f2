package phone

import (
	"encoding/json"
	"fmt"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Receive handles the answer to a request, which may come late, twice, or after other answers. An error wraps
// [sync.ErrResponse] or is [sync.ErrTooOld], and nothing was changed. An operation leaves the outbox only when the
// server has acknowledged it and the same step stores its record.
func (p *Phone) Receive(log string, req sync.Request, resp sync.Response, now int64) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	if !l.loaded && (len(resp.Recs) > 0 || l.meta.Phase != following) {
		return Step{}, ErrNotLoaded
	}
	if resp.MinV > sync.WireVersion {
		return Step{}, fmt.Errorf("%w: it wants version %d, this app speaks %d; update the app, nothing unsent is lost",
			sync.ErrTooOld, resp.MinV, sync.WireVersion)
	}
	if err := check(resp, req); err != nil {
		return Step{}, fmt.Errorf("%w: %w", sync.ErrResponse, err)
	}
	l.failures, l.next, l.reason = 0, 0, ""
	current := req.Cursor == l.expects()
	r := receiving{phone: p, log: l, req: req, resp: resp, now: now, acked: map[*outRow]bool{}}
	if l.meta.Closed != "" && resp.Closed == "" { // open again, or an old answer: count what was sent as unsent
		l.meta.Mark = sync.Cursor{}
		l.markUnsent(&r.w)
		p.dropHanded(&r.w, l.id)
	}
	l.meta.Shared, l.meta.ClockOff, l.meta.Closed = now, req.Now-resp.Now, resp.Closed
	l.meta.Bare = l.meta.Bare && resp.Closed != ""
	r.acks()
	r.pause()
	switch {
	case current && resp.Rewound:
		p.recover(&r.w, l)
	case resp.Rewound, resp.Open:
	case resp.Closed != "":
		l.meta.Mark = sync.Cursor{Epoch: resp.Epoch, Seq: resp.Seq, Hash: resp.Hash}
		p.setHanded(&r.w, sync.HandedLog{Log: l.id, Epoch: resp.Epoch, Seq: resp.Seq, Hash: resp.Hash, Held: resp.Held})
	case req.Cursor == l.meta.Cursor:
		r.records()
	}
	if l.loaded && r.viewStale {
		l.rebuildView(p.author)
	}
	r.w.put(keyLog(l.id), l.meta)
	return p.finish(&r.w)
}

// expects returns the cursor of the log's next request.
func (l *phoneLog) expects() sync.Cursor {
	if l.meta.Closed != "" && l.meta.Mark != (sync.Cursor{}) {
		return l.meta.Mark
	}
	return l.meta.Cursor
}

// check reports whether a correct server could have sent the answer.
func check(r sync.Response, req sync.Request) error {
	if r.V < 1 {
		return fmt.Errorf("no version")
	}
	if r.Now < -sync.FarthestMS || r.Now > sync.FarthestMS {
		return fmt.Errorf("a clock of %d", r.Now)
	}
	if r.Rewound && req.Cursor == (sync.Cursor{}) {
		return fmt.Errorf("rewound before the beginning")
	}
	if r.Rewound || r.Open || r.Closed != "" {
		if len(r.Recs) > 0 {
			return fmt.Errorf("records in an answer that may have none")
		}
		return nil
	}
	if r.Epoch == "" || req.Cursor.Epoch != "" && req.Cursor.Epoch != r.Epoch {
		return fmt.Errorf("epoch %q after %q", r.Epoch, req.Cursor.Epoch)
	}
	if r.Seq != req.Cursor.Seq+uint64(len(r.Recs)) || r.Seq > r.Head || r.More != (r.Seq < r.Head) {
		return fmt.Errorf("%d records after %d do not end at %d of %d", len(r.Recs), req.Cursor.Seq, r.Seq, r.Head)
	}
	if r.More && len(r.Recs) == 0 {
		return fmt.Errorf("more to come, but nothing sent")
	}
	seen := make(map[string]bool, len(r.Recs))
	for i, rec := range r.Recs {
		if rec.Seq != req.Cursor.Seq+uint64(i)+1 || rec.Pending() || rec.ID == "" || rec.Device == "" || rec.Kind == "" ||
			seen[rec.ID] {
			return fmt.Errorf("record %d is not valid", rec.Seq)
		}
		if !rec.Harmless() {
			return fmt.Errorf("record %d could crash this app, so it was skipped; the owner can set it aside on the server",
				rec.Seq)
		}
		if len(rec.Value) > 0 && !json.Valid(rec.Value) {
			return fmt.Errorf("value of record %d is not JSON", rec.Seq)
		}
		seen[rec.ID] = true
	}
	return nil
}

// receiving is one answer being handled.
type receiving struct {
	phone     *Phone
	log       *phoneLog
	req       sync.Request
	resp      sync.Response
	now       int64
	w         writing
	acked     map[*outRow]bool // by this answer
	viewStale bool             // the view must be rebuilt
}

// acks handles the result of each operation and each healed record.
func (r *receiving) acks() {
	sent := make(map[string]job.Op, len(r.req.Ops))
	for _, op := range r.req.Ops {
		sent[op.ID] = op
	}
	rows := make(map[string]*outRow, len(r.log.out))
	for _, row := range r.log.out {
		rows[row.Op.ID] = row
	}
	for _, a := range r.resp.Acks {
		if _, missing := r.log.missing[a.ID]; missing || r.log.restamped[a.ID] {
			r.healAck(a)
		}
		op, was := sent[a.ID]
		if row := rows[a.ID]; was && row != nil {
			r.ack(a, op, row)
		}
	}
}

// pause delays the next exchange if the server put operations off. They stay in the outbox.
func (r *receiving) pause() {
	for _, a := range r.resp.Acks {
		if a.Result == sync.Later {
			r.log.next = r.now + min(max(r.resp.Pause, firstPauseMS), longPauseMS)
			r.log.reason = "Too much was sent in the last hour. It stays on this phone and is sent again later."
			return
		}
	}
}

func (r *receiving) healAck(a sync.Ack) {
	switch a.Result {
	case sync.OK, sync.Duplicate:
		r.log.healed[a.ID] = true
	case sync.Denied, sync.Invalid:
		r.log.refused[a.ID] = a.Why
	}
}

func (r *receiving) ack(a sync.Ack, sent job.Op, row *outRow) {
	switch a.Result {
	case sync.OK, sync.Duplicate:
		r.acked[row] = true
		if r.resp.Closed != "" { // the owner has accepted it
			r.phone.dropNote(&r.w, row.Op.ID)
		}
		if !row.Acked { // over a closed link the row stays until the log is forgotten or the link is open again
			row.Acked = true
			r.w.put(keyOut(r.log.id, row.order), row)
		}
	case sync.Fork:
		if sent.Device != row.Op.Device || row.settled() {
			return // moved to another device id already
		}
		if row.Op.Device == r.phone.writer.Device {
			r.phone.fork(&r.w)
			return
		}
		row.Op.Device = r.phone.writer.Device
		r.w.put(keyOut(r.log.id, row.order), row)
	case sync.Quarantined:
		if !row.Held {
			row.Held = true
			r.w.put(keyOut(r.log.id, row.order), row)
			if _, noted := r.phone.noteOf(row.Op.ID, NoteQuarantined); !noted { // noted: it was sent before
				r.note(NoteQuarantined, row.Op, a.Why)
			}
		}
	case sync.Denied:
		r.note(NoteDenied, row.Op, a.Why)
		r.remove(row)
	case sync.Invalid:
		r.note(NoteInvalid, row.Op, a.Why)
		r.remove(row)
	}
}

func (r *receiving) note(kind NoteKind, op job.Op, why string) {
	before, _ := r.phone.noteOf(op.ID, NoteQuarantined)
	r.phone.dropNote(&r.w, op.ID)
	r.phone.note(&r.w,
		Note{Log: r.log.id, Kind: kind, Op: &op, Why: why, At: r.now, What: before.What, Title: before.Title})
}

// remove takes a row out of the outbox.
func (r *receiving) remove(row *outRow) {
	for i, have := range r.log.out {
		if have == row {
			r.log.out = append(r.log.out[:i:i], r.log.out[i+1:]...)
			break
		}
	}
	r.log.removed = append(r.log.removed, row)
	r.w.delete(keyOut(r.log.id, row.order))
	r.viewStale = true
}

// records stores the new records and advances the cursor. At the end of the log it compares digests or ends a recovery.
func (r *receiving) records() {
	l := r.log
	rows := make(map[string]*outRow, len(l.out))
	for _, row := range l.out {
		rows[row.Op.ID] = row
	}
	var news []job.Rec
	for _, rec := range r.resp.Recs {
		r.w.put(keyRec(l.id, l.meta.Generation, rec.Seq), rec)
		l.meta.digest += sync.Digest(rec)
		l.meta.Count++
		if row := rows[rec.ID]; row != nil &&
			!sync.IDTaken(rec, row.Op, row.author(r.phone.author)) { // if taken: the server refuses the row, and we note it
			r.phone.dropNote(&r.w, rec.ID)
			r.remove(row)
		}
		if l.meta.Phase == following || l.takeRecovering(rec) {
			news = append(news, rec)
		}
	}
	if l.loaded { // if not, Receive saw to it that no records came
		r.apply(news)
	}
	l.meta.Digest = sync.FormatDigest(l.meta.digest)
	l.meta.Cursor, l.meta.Head = sync.Cursor{Epoch: r.resp.Epoch, Seq: r.resp.Seq, Hash: r.resp.Hash}, r.resp.Head
	if !r.resp.More {
		r.atHead()
	}
}

// apply folds the new records.
func (r *receiving) apply(news []job.Rec) {
	l := r.log
	l.accepted.ApplyAll(news)
	switch {
	case l.meta.Phase != following:
		if l.refold || l.accepted.Stale {
			l.foldRecovering()
			r.viewStale = true
		}
		r.viewStale, l.refold = r.viewStale || len(news) > 0, false
	case l.accepted.Stale: // something was set aside: only the records have what it had replaced
		l.loaded, l.whole = false, true
	case !r.viewStale:
		l.view.ApplyAll(news)
	}
}

func (r *receiving) atHead() {
	l := r.log
	for _, row := range l.out {
		switch {
		case r.acked[row]: // its record must have come before the row did: search for it
			l.loaded, l.whole, l.searching = false, true, true
		case row.Acked: // it was in the log and is gone: the server went back in time unnoticed; send it again
			row.Acked = false
			r.w.put(keyOut(l.id, row.order), row)
		}
	}
	switch l.meta.Phase {
	case repulling:
		l.meta.Phase = healing
		fallthrough
	case healing:
		for id := range l.missing {
			if l.healed[id] { // it was healed and is gone again: the server went back in time unnoticed
				delete(l.healed, id)
			}
		}
		if l.complete() {
			r.recovered()
		}
	default:
		r.compare()
	}
	if l.loaded && l.meta.Phase == following && !l.accepted.Stale &&
		l.meta.Cursor.Seq >= l.meta.Snapshot+uint64(r.phone.options.SnapshotEvery) {
		r.snapshot()
	}
}

func (r *receiving) snapshot() {
	l := r.log
	l.meta.Snapshot = l.meta.Cursor.Seq
	r.w.put(keySnap(l.id), snapshot{l.meta.Generation, l.meta.Cursor.Seq, l.accepted})
}

// compare checks the digest of the stored records against the server's. The first mismatch pulls the log again; the
// second becomes a note for a person, and nothing is thrown away.
func (r *receiving) compare() {
	l := r.log
	if l.meta.Digest == r.resp.Digest && l.meta.Count == r.resp.Count {
		l.meta.Mismatches = 0
		return
	}
	l.meta.Mismatches++
	switch l.meta.Mismatches {
	case 1:
		r.phone.recover(&r.w, l)
	case 2:
		r.phone.note(&r.w, Note{Log: l.id, Kind: NoteMismatch, At: r.now, Why: fmt.Sprintf(
			"this phone has %d records with sum %s, the server %d with %s, at %d of epoch %s",
			l.meta.Count,
			l.meta.Digest,
			r.resp.Count,
			r.resp.Digest,
			r.resp.Head,
			r.resp.Epoch,
		)})
	}
}

// allLogs lists every log with rows, sorted to keep steps independent of map order.
func (p *Phone) allLogs() []string {
	ids := make([]string, 0, len(p.logs))
	for id := range p.logs {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}
