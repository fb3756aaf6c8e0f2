package simulation

import (
	"encoding/json"
	"fmt"
	"slices"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// nothingLost checks that each operation reported as saved or waiting is in the log or on a phone's list of problems.
func (w *world) nothingLost(log string, recs []job.Rec) error {
	there := map[string]bool{}
	for _, r := range recs {
		there[r.ID] = true
	}
	for _, id := range sortedKeys(w.made) {
		m := w.made[id]
		if m.log != log || there[id] || m.lost != "" || !m.stored && m.tap.told == nothing || w.refusedNote(id) ||
			w.otherTry(m, there) {
			continue
		}
		if w.stranded(m) {
			w.result[Stranded]++
			continue
		}
		return fmt.Errorf("operation %s (%s %s by %s) is lost; held on %s", id[2:8], m.op.Kind, m.op.Entity, m.by.name,
			w.holders(id))
	}
	return nil
}

// refusedNote reports whether the operation was refused and is on a phone's list of problems.
func (w *world) refusedNote(id string) bool {
	for _, ph := range w.phones {
		for key, row := range ph.disk.rows {
			if len(key) > 5 && key[:5] == "note/" && idOf(row) == id {
				var n phone.Note
				if json.Unmarshal(row, &n) == nil && n.Kind != phone.NoteQuarantined {
					return true
				}
			}
		}
	}
	return false
}

// otherTry reports whether all operations of another try of the same tap arrived.
func (w *world) otherTry(m *trackedOp, there map[string]bool) bool {
	whole := map[int]bool{}
	for _, t := range m.tap.tries {
		arrived, seen := whole[t.try]
		whole[t.try] = (arrived || !seen) && there[t.op.ID]
	}
	for try, arrived := range whole {
		if try != m.try && arrived {
			return true
		}
	}
	return false
}

// stranded reports whether, after a restore, only phones without access have the operation. They never hear of the
// restore.
func (w *world) stranded(m *trackedOp) bool {
	closed := false
	for _, ph := range w.phones {
		if !ph.disk.holds(m.op.ID, "rec/", "out/") {
			continue
		}
		if w.status(ph, m.log).Closed == "" {
			return false
		}
		closed = true
	}
	return closed && w.result[Restores]+w.result[Silent] > 0
}

// nothingTwice checks that a tap counts once, however often its form arrived.
func (w *world) nothingTwice(log string, recs []job.Rec) error {
	there := map[string]bool{}
	for _, r := range recs {
		there[r.ID] = true
	}
	first := map[*tap]*trackedOp{}
	for _, id := range sortedKeys(w.made) {
		m := w.made[id]
		if m.log != log || !there[id] {
			continue
		}
		other := first[m.tap]
		switch {
		case other == nil:
			first[m.tap] = m
		case other.try == m.try:
		default:
			return fmt.Errorf("%s by %s counts twice: operations %s and %s", m.tap.id, m.by.name, other.op.ID[2:8], id[2:8])
		}
	}
	return nil
}

// converged checks that every phone with access shows the server's job and has nothing left to send.
func (w *world) converged(log string, recs []job.Rec) error {
	want, err := json.Marshal(job.Fold(recs...))
	if err != nil {
		return err
	}
	for _, ph := range w.phones {
		if !slices.Contains(ph.logs, log) {
			continue
		}
		status := w.status(ph, log)
		if status.Waiting > 0 {
			return fmt.Errorf("phone %s still has %d operations", ph.name, status.Waiting)
		}
		if status.Closed != "" {
			continue
		}
		if err := w.shows(ph, log, want); err != nil {
			return err
		}
		for _, n := range ph.tabs[0].phone.Notes() {
			if n.Kind == phone.NoteMismatch || n.Kind == phone.NoteDamaged || n.Kind == phone.NoteRefused {
				return fmt.Errorf("phone %s notes %s: %s", ph.name, n.Kind, n.Why)
			}
		}
	}
	return nil
}

func (w *world) shows(ph *device, log string, want []byte) error {
	view, _ := ph.tabs[0].phone.State(log)
	got, err := json.Marshal(view)
	if err != nil {
		return err
	}
	if string(got) != string(want) {
		return fmt.Errorf("phone %s shows another job than the server: %s", ph.name, difference(got, want))
	}
	return nil
}

// difference shows where two texts begin to differ.
func difference(got, want []byte) string {
	at := 0
	for at < len(got) && at < len(want) && got[at] == want[at] {
		at++
	}
	cut := func(text []byte) []byte { return text[min(len(text), max(0, at-120)):min(len(text), at+120)] }
	return fmt.Sprintf("it has\n  %s\nwhere the server has\n  %s", cut(got), cut(want))
}

// tallies checks each tally against the sum that the model computes without app/job's fold.
func (w *world) tallies(log string, recs []job.Rec) error {
	state := job.Fold(recs...)
	ops, stamps, undone := map[string]job.Op{}, map[string]job.Stamp{}, map[string]bool{}
	for _, r := range recs {
		if stamps[r.ID] = r.Stamp(); r.Kind == job.Undo {
			undone[r.Field] = true
		}
		if m := w.made[r.ID]; m != nil {
			ops[r.ID] = m.op
		} else if w.insider != nil {
			ops[r.ID] = w.insider.sent[r.ID]
		}
	}
	for entity, tally := range state.Tallies {
		total, err := tallyOf(entity, ops, stamps, undone)
		if err != nil {
			return err
		}
		if got := tally.Total(); got != total {
			return fmt.Errorf("tally %s is %d, people made %d", entity, got, total)
		}
	}
	return nil
}

// tallyOf adds up a tally from the operations that people made.
func tallyOf(entity string, ops map[string]job.Op, stamps map[string]job.Stamp, undone map[string]bool) (int64, error) {
	counted, covers, total := job.Stamp{}, map[string]bool{}, int64(0)
	for id, op := range ops {
		if op.Kind != job.Stocktake || op.Entity != entity || undone[id] || !counted.Less(stamps[id]) {
			continue
		}
		var c job.Counted
		if err := json.Unmarshal(op.Value, &c); err != nil {
			return 0, err
		}
		counted, covers, total = stamps[id], map[string]bool{}, c.N
		for _, covered := range c.Covers {
			covers[covered] = true
		}
	}
	for id, op := range ops {
		if op.Kind == job.Add && op.Entity == entity && !undone[id] && !covers[id] {
			total += op.Delta
		}
	}
	return total, nil
}

// order checks that no operation is overruled by one that its author had seen.
func (w *world) order(log string, recs []job.Rec) error {
	stamps := map[string]job.Stamp{}
	for _, r := range recs {
		stamps[r.ID] = r.Stamp()
	}
	for _, id := range sortedKeys(w.made) {
		m := w.made[id]
		at, there := stamps[id]
		if m.op.Kind != job.Set || m.log != log || !there || m.apart || m.by.emptied > 0 {
			continue
		}
		for _, seen := range m.seen {
			if w.handedIn[seen] && w.result[Restores]+w.result[Silent] > 0 {
				continue // a restore lost it, and it came back through the quarantine
			}
			if earlier, there := stamps[seen]; there && seen != id && !earlier.Less(at) {
				return fmt.Errorf(
					"%s %s: operation %s is stamped %d, yet %s that its author had seen %d; it had seen %v, its parents are %v",
					m.op.Entity, m.op.Field, id[2:8], at.Effective, seen[2:8], earlier.Effective, m.seen, m.op.Parents,
				)
			}
		}
	}
	return nil
}
