package phone

import (
	"cmp"
	"fmt"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// snapshotEvery is after how many records the folded state is stored anew.
const snapshotEvery = 500

// logMeta is the row of a log.
type logMeta struct {
	Held       bool        `json:"held"`
	Since      int64       `json:"since"` // phone clock when it was first held
	Cursor     sync.Cursor `json:"cur"`
	Count      uint64      `json:"cnt"`
	Digest     string      `json:"dig,omitempty"`
	Head       uint64      `json:"head,omitempty"` // the server's, when last heard
	Generation uint64      `json:"gen,omitempty"`  // goes up when the log is pulled from its beginning again
	Phase      phase       `json:"phase,omitempty"`
	Snapshot   uint64      `json:"snap,omitempty"` // sequence of the stored state in this generation
	Mismatches int         `json:"bad,omitempty"`  // digests that did not match, one after the other
	Shared     int64       `json:"shared,omitempty"`
	ClockOff   int64       `json:"off,omitempty"` // phone clock minus server clock, ms
	Closed     string      `json:"closed,omitempty"`
	// where the server's log stood when it last took something from a closed link
	Mark   sync.Cursor `json:"mark"`
	Bare   bool        `json:"bare,omitempty"` // nothing of the job is here but what is handed in again
	digest uint64
}

// phase is what the phone does with a log.
type phase string

const (
	following phase = ""     // pulls what is new, sends what is unsent
	repulling phase = "pull" // reads the log from its beginning, because the server went back in time; sends nothing
	healing   phase = "heal" // sends back what the server has lost, then what is unsent
)

// snapshot is the stored state of a log.
type snapshot struct {
	Generation uint64     `json:"gen"`
	Seq        uint64     `json:"s"`
	State      *job.State `json:"state"`
}

// phoneLog is one log on the phone.
type phoneLog struct {
	id     string
	meta   logMeta
	out    []*outRow // in the order made
	loaded bool      // accepted and view are ready
	whole  bool      // read every record: the snapshot was no good, or an acknowledged operation is looked for

	searching bool       // for records of acknowledged operations
	accepted  *job.State // what the server has accepted; while recovering, with what it lost
	view      *job.State // accepted, with what is unsent on top

	// While recovering only:
	old     []job.Rec       // of earlier generations, in the order to send them back
	missing map[string]int  // of these the server has none
	moved   map[string]bool // of these it has one with another stamp, and has to hear of the first
	fresh   []job.Rec       // of this generation
	refold  bool            // a record came back with another stamp
	healed  map[string]bool
	refused map[string]string

	left []*outRow // what left the outbox since the phone was last [Phone.Stored]

	failures int
	next     int64
	reason   string
	agreed   int64 // phone clock when the server last said that it has what is here and no more, 0 if never
}

// Wants lists what of the storage the log still needs before it can be used, nil if nothing. Read the rows and hand
// them to [Phone.Give].
func (p *Phone) Wants(log string) []Range {
	l, held := p.logs[log]
	switch {
	case !held || l.loaded:
		return nil
	case l.meta.Phase != following:
		return []Range{prefix("rec/" + log + "/")}
	case l.whole:
		return []Range{prefix(keyGeneration(log, l.meta.Generation))}
	}
	tail := prefix(keyGeneration(log, l.meta.Generation))
	tail.From = keyRec(log, l.meta.Generation, l.meta.Snapshot+1)
	return []Range{{keySnap(log), keySnap(log) + "\x00"}, tail}
}

// Give takes the rows that [Phone.Wants] listed. If the storage has lost some, the log is pulled anew and the step says
// so; ask Wants again afterwards.
func (p *Phone) Give(log string, rows []Row) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	slices.SortStableFunc(rows, func(a, b Row) int { return cmp.Compare(a.Key, b.Key) })
	if l.meta.Phase != following {
		l.giveRecovering(rows)
		l.layOver(p.author)
		return Step{}, nil
	}
	ids, err := l.giveFollowing(rows)
	if err == nil {
		l.loaded, l.whole = true, false
		step, err := p.found(l, ids)
		l.layOver(p.author)
		return step, err
	}
	if !l.whole {
		l.whole = true
		return Step{}, nil
	}
	var w writing
	p.recover(&w, l)
	return p.finish(&w)
}

// found settles acknowledged operations whose records were looked for: those that are here leave, the others are sent
// again.
func (p *Phone) found(l *phoneLog, ids map[string]bool) (Step, error) {
	if !l.searching {
		return Step{}, nil
	}
	l.searching = false
	var w writing
	kept := l.out[:0:0]
	for _, row := range l.out {
		switch {
		case row.Acked && ids[row.Op.ID]:
			w.delete(keyOut(l.id, row.order))
			continue
		case row.Acked:
			row.Acked = false
			w.put(keyOut(l.id, row.order), row)
		}
		kept = append(kept, row)
	}
	l.out = kept
	return p.finish(&w)
}

// giveFollowing folds snapshot and records; it gives the ids of the records it read.
func (l *phoneLog) giveFollowing(rows []Row) (map[string]bool, error) {
	ids := map[string]bool{}
	state, seq := job.NewState(), uint64(0)
	for _, row := range rows {
		if row.Key == keySnap(l.id) {
			var s snapshot
			if err := decodeRow(row, &s); err != nil {
				return nil, fmt.Errorf("stored state: %w", err)
			}
			if s.Generation != l.meta.Generation || s.Seq != l.meta.Snapshot || s.State == nil || s.State.Stale ||
				s.State.Registers == nil ||
				s.State.Tallies == nil {
				return nil, fmt.Errorf("stored state of another time")
			}
			if !l.whole {
				state, seq = s.State, s.Seq
			}
		}
	}
	digest := uint64(0)
	var recs []job.Rec
	for _, row := range rows {
		if row.Key == keySnap(l.id) {
			continue
		}
		var rec job.Rec
		if err := decodeRow(row, &rec); err != nil || rec.Seq != seq+1 {
			return nil, fmt.Errorf("record after %d is missing", seq)
		}
		ids[rec.ID] = true
		recs = append(recs, rec)
		digest += sync.Digest(rec)
		seq++
	}
	if state.ApplyAll(recs); l.whole {
		state.Stale = false // all of them, so those that set others aside came first
	}
	if state.Stale {
		return nil, fmt.Errorf("something was set aside after the stored state")
	}
	if seq != l.meta.Cursor.Seq {
		return nil, fmt.Errorf("records end at %d, read to %d", seq, l.meta.Cursor.Seq)
	}
	if l.whole && sync.FormatDigest(digest) != l.meta.Digest && seq > 0 {
		return nil, fmt.Errorf("records are not those that were stored")
	}
	l.accepted = state
	return ids, nil
}

// giveRecovering sorts the records into those of this generation and those before. A record that cannot be read is
// left out; the server or another phone has it.
func (l *phoneLog) giveRecovering(rows []Row) {
	l.old, l.fresh, l.missing, l.moved = nil, nil, map[string]int{}, map[string]bool{}
	current := prefix(keyGeneration(l.id, l.meta.Generation))
	have, fresh := map[string]bool{}, map[string]job.Rec{}
	var before [][]job.Rec
	generation := ""
	for _, row := range rows {
		var rec job.Rec
		if decodeRow(row, &rec) != nil {
			continue
		}
		if current.Has(row.Key) {
			l.fresh = append(l.fresh, rec)
			fresh[rec.ID] = rec
			continue
		}
		if g := row.Key[:len(row.Key)-12]; g != generation {
			generation = g
			before = append(before, nil)
		}
		if rec.Kind == job.Emptied { // there is nothing in it to give back
			continue
		}
		before[len(before)-1] = append(before[len(before)-1], rec)
	}
	for g := len(before) - 1; g >= 0; g-- { // the latest generation knows best
		for _, rec := range before[g] {
			now, back := fresh[rec.ID]
			if back && sync.Taken(now, rec.Op, rec.Author) {
				back, l.refused[rec.ID] = false, sync.WhyTaken
			}
			if have[rec.ID] || back && now.Stamp() == rec.Stamp() {
				continue
			}
			have[rec.ID] = true
			if back {
				l.moved[rec.ID] = true
			} else {
				l.missing[rec.ID] = len(l.old)
			}
			l.old = append(l.old, rec)
		}
	}
	l.foldRecovering()
	l.loaded = true
}

func (l *phoneLog) foldRecovering() {
	recs := append([]job.Rec(nil), l.fresh...)
	for _, rec := range l.old {
		if _, missing := l.missing[rec.ID]; missing {
			recs = append(recs, rec)
		}
	}
	l.accepted = job.Fold(recs...)
}

// layOver makes the view anew: what is accepted, and what is unsent on top.
func (l *phoneLog) layOver(by job.Author) {
	l.view = l.accepted.Clone()
	recs := make([]job.Rec, len(l.out))
	for i, row := range l.out {
		recs[i] = row.pending(by)
	}
	l.view.ApplyAll(recs)
}

// pending dresses an unsent operation for the view, in the order made even if its device id has changed since.
func (o *outRow) pending(by job.Author) job.Rec {
	rec := job.PendingRec(o.Op, o.author(by))
	rec.Effective += int64(o.order) - int64(o.Op.Number)
	return rec
}

// State returns what a page shows of a log: everything accepted, with this phone's unsent operations on top, marked
// pending. It is the phone's own and changes with the next action; clone it to keep it. It is false until the log was
// loaded once; a log being pulled anew keeps showing what it had.
func (p *Phone) State(log string) (*job.State, bool) {
	l, held := p.logs[log]
	if !held || l.view == nil || l.meta.Bare {
		return nil, false
	}
	return l.view, true
}
