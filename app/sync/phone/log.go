package phone

import (
	"cmp"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/calc/stable"
)

// snapshotEvery is the number of records between two stored states.
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
	// where the server's log stood when it last received something from a closed link
	Mark   sync.Cursor `json:"mark"`
	Bare   bool        `json:"bare,omitempty"` // the log holds only operations to send again
	digest uint64
}

// phase says what the phone is doing with a log.
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
	whole  bool      // read every record: the snapshot was unusable, or we search for an acknowledged operation

	searching bool       // for records of acknowledged operations
	accepted  *job.State // what the server has accepted; while recovering, with what it lost
	view      *job.State // accepted, with what is unsent on top

	// Only while recovering:
	old       []job.Rec       // of earlier generations, in the order to send them back
	missing   map[string]int  // index in old of records that the server lacks, by id
	restamped map[string]bool // of these it has one with another stamp, and has to hear of the first
	fresh     []job.Rec       // of this generation
	refold    bool            // a record came back with another stamp
	healed    map[string]bool
	refused   map[string]string

	removed []*outRow // what left the outbox since the phone was last [Phone.Stored]

	failures int
	next     int64
	reason   string
	agreed   int64 // phone clock when the server last said that it has what is here and no more, 0 if never
}

// Wants lists the rows to read from storage before the log can be used, nil if none. Pass them to [Phone.Give].
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

// Give loads a log from the rows that [Phone.Wants] listed. If the storage has lost some, the step starts a new pull.
// Call Wants again afterwards.
func (p *Phone) Give(log string, rows []Row) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	stable.Sort(rows, func(a, b Row) int { return cmp.Compare(a.Key, b.Key) })
	if l.meta.Phase != following {
		l.giveRecovering(rows)
		l.rebuildView(p.author)
		return Step{}, nil
	}
	ids, err := l.giveFollowing(rows)
	if err == nil {
		l.loaded, l.whole = true, false
		step, err := p.settleSearched(l, ids)
		l.rebuildView(p.author)
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
func (p *Phone) settleSearched(l *phoneLog, ids map[string]bool) (Step, error) {
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

// giveFollowing folds the snapshot and the records. It returns the ids of the records it read.
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
				return nil, fmt.Errorf("stored state does not fit the log")
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
		state.Stale = false // with every record at hand, those that set others aside are applied first
	}
	if state.Stale {
		return nil, fmt.Errorf("something was set aside after the stored state")
	}
	if seq != l.meta.Cursor.Seq {
		return nil, fmt.Errorf("records end at %d, read to %d", seq, l.meta.Cursor.Seq)
	}
	if l.whole && sync.FormatDigest(digest) != l.meta.Digest && seq > 0 {
		return nil, fmt.Errorf("records differ from those that were stored")
	}
	l.accepted = state
	return ids, nil
}

// giveRecovering separates the records of this generation from earlier ones. It skips unreadable records; the server or
// another phone has them.
func (l *phoneLog) giveRecovering(rows []Row) {
	l.old, l.fresh, l.missing, l.restamped = nil, nil, map[string]int{}, map[string]bool{}
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
		if rec.Kind == job.Emptied { // it holds nothing to give back
			continue
		}
		before[len(before)-1] = append(before[len(before)-1], rec)
	}
	for g := len(before) - 1; g >= 0; g-- { // the latest generation knows best
		for _, rec := range before[g] {
			now, back := fresh[rec.ID]
			if back && sync.IDTaken(now, rec.Op, rec.Author) {
				back, l.refused[rec.ID] = false, sync.WhyIDTaken
			}
			if have[rec.ID] || back && now.Stamp() == rec.Stamp() {
				continue
			}
			have[rec.ID] = true
			if back {
				l.restamped[rec.ID] = true
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

// rebuildView applies the unsent operations to a copy of the accepted state.
func (l *phoneLog) rebuildView(by job.Author) {
	l.view = l.accepted.Clone()
	recs := make([]job.Rec, len(l.out))
	for i, row := range l.out {
		recs[i] = row.pending(by)
	}
	l.view.ApplyAll(recs)
}

// pending makes a record of an unsent operation for the view. It keeps the order made, even after a new device id.
func (o *outRow) pending(by job.Author) job.Rec {
	rec := job.PendingRec(o.Op, o.author(by))
	rec.Effective += int64(o.order) - int64(o.Op.Number)
	return rec
}

// State returns what a page shows of a log: everything accepted, with this phone's unsent operations on top, marked
// pending. The next action changes it; clone it to keep it. The second result is false until the log was loaded once.
// While a log is pulled again, State returns what it had before.
func (p *Phone) State(log string) (*job.State, bool) {
	l, held := p.logs[log]
	if !held || l.view == nil || l.meta.Bare {
		return nil, false
	}
	return l.view, true
}
