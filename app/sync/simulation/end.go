package simulation

import (
	"encoding/json"
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// end stops the faults, lets everybody exchange, and judges.
func (w *world) end() error {
	w.wire = nil
	w.note("the faults stop")
	if err := w.settle(); err != nil {
		return err
	}
	if err := w.server.Accept(jobID, w.serverNow()); err != nil {
		return err
	}
	if err := w.settle(); err != nil {
		return err
	}
	for _, log := range []string{jobID, jobID + sync.OwnSuffix} {
		recs, err := w.server.Recs(log)
		if err != nil {
			return err
		}
		for _, check := range []func(string, []job.Rec) error{w.nothingLost, w.converged, w.tallies, w.order} {
			if err := check(log, recs); err != nil {
				return fmt.Errorf("log %s: %w", log, err)
			}
		}
	}
	return nil
}

// settle exchanges without faults until nobody has anything to say.
func (w *world) settle() error {
	for range 200 {
		busy := false
		for _, ph := range w.phones {
			t := ph.tabs[0]
			for _, other := range ph.tabs[1:] {
				w.kill(other)
			}
			for _, log := range ph.logs {
				w.time += 1000
				said, err := w.exchange(t, log)
				if err != nil {
					return err
				}
				busy = busy || said
			}
		}
		if !busy {
			return nil
		}
	}
	var standing []string
	for _, ph := range w.phones {
		for _, log := range ph.logs {
			standing = append(standing, fmt.Sprintf("%s %s %+v", ph.name, log, w.status(ph, log)))
		}
	}
	return fmt.Errorf("phones and server never come to rest: %s", strings.Join(standing, "; "))
}

// exchange does one exchange; it is true if anything was moved.
func (w *world) exchange(t *tab, log string) (bool, error) {
	if err := w.open(t); err != nil {
		return false, err
	}
	if err := w.load(t, log); err != nil {
		return false, err
	}
	req, ok := t.phone.Request(log, w.time+t.on.clock)
	if !ok {
		return false, nil
	}
	req = w.sabotage(req)
	if len(req.Heal) > 0 {
		w.note("phone %s heals %s: %s", t.on.name, log, healText(req.Heal))
	}
	resp, err := w.serve(message{tab: t, log: log, req: req})
	if err != nil {
		return false, err
	}
	step, err := t.phone.Receive(log, req, resp, w.time+t.on.clock)
	if err != nil {
		return false, fmt.Errorf("phone %s receives: %w", t.on.name, err)
	}
	if !w.commit(t, step) {
		return true, nil
	}
	if w.throwAway(t, log, resp); t.phone == nil {
		return true, nil
	}
	if err := w.load(t, log); err != nil {
		return false, err
	}
	return resp.Rewound || len(resp.Recs) > 0 || len(resp.Acks) > 0 || t.phone.Behind(log), nil
}

// nothingLost: every saved operation is in the log, or somewhere a person will see it.
func (w *world) nothingLost(log string, recs []job.Rec) error {
	there := map[string]bool{}
	for _, r := range recs {
		there[r.ID] = true
	}
	for _, id := range sortedKeys(w.made) {
		m := w.made[id]
		if m.log != log || there[id] {
			continue
		}
		if w.noted(id) || w.onlyOnClosed(id) {
			continue
		}
		return fmt.Errorf("operation %s (%s %s by %s) is lost; held on %s", id[2:8], m.op.Kind, m.op.Entity, m.by.name, w.holders(id))
	}
	return nil
}

// noted reports whether the operation is on some phone's list of what needs attention.
func (w *world) noted(id string) bool {
	for _, ph := range w.phones {
		if ph.disk.holds(id, "note/") {
			return true
		}
	}
	return false
}

// holders names the rows that hold an operation, phone by phone.
func (w *world) holders(id string) string {
	var found []string
	for _, ph := range w.phones {
		for _, key := range sortedKeys(ph.disk) {
			if strings.Contains(string(ph.disk[key]), `"i":"`+id) {
				found = append(found, ph.name+" "+key)
			}
		}
	}
	return strings.Join(found, ", ")
}

// onlyOnClosed reports whether a restore has left the operation's record on phones alone whose link is closed.
func (w *world) onlyOnClosed(id string) bool {
	closed := false
	for _, ph := range w.phones {
		if !ph.disk.holds(id, "rec/", "out/") {
			continue
		}
		if w.status(ph, jobID).Closed == "" {
			return false
		}
		closed = true
	}
	return closed && w.result.Restores+w.result.Silent > 0
}

func (w *world) status(ph *phone, log string) sync.Status { return ph.tabs[0].phone.Status(log) }

// converged: every phone that is let in holds what the server holds, and the fold of it.
func (w *world) converged(log string, recs []job.Rec) error {
	want, err := json.Marshal(job.Fold(recs...))
	if err != nil {
		return err
	}
	for _, ph := range w.phones {
		status := w.status(ph, log)
		if !strings.Contains(strings.Join(ph.logs, " "), log) {
			continue
		}
		if status.Waiting > 0 {
			return fmt.Errorf("phone %s still has %d operations", ph.name, status.Waiting)
		}
		if status.Closed != "" {
			continue
		}
		view, _ := ph.tabs[0].phone.State(log)
		got, err := json.Marshal(view)
		if err != nil {
			return err
		}
		if string(got) != string(want) {
			return fmt.Errorf("phone %s shows another job than the server: %s", ph.name, difference(got, want))
		}
		for _, n := range ph.tabs[0].phone.Notes() {
			if n.Kind == sync.NoteMismatch || n.Kind == sync.NoteDamaged || n.Kind == sync.NoteRefused {
				return fmt.Errorf("phone %s notes %s: %s", ph.name, n.Kind, n.Why)
			}
		}
	}
	return nil
}

// difference shows where two texts part.
func difference(got, want []byte) string {
	at := 0
	for at < len(got) && at < len(want) && got[at] == want[at] {
		at++
	}
	cut := func(text []byte) []byte { return text[min(len(text), max(0, at-120)):min(len(text), at+120)] }
	return fmt.Sprintf("it has\n  %s\nwhere the server has\n  %s", cut(got), cut(want))
}

// tallies: each is what the model makes of the operations people made, without looking at how states are folded.
func (w *world) tallies(log string, recs []job.Rec) error {
	state := job.Fold(recs...)
	stamps, undone := map[string]job.Stamp{}, map[string]bool{}
	for _, r := range recs {
		if stamps[r.ID] = r.Stamp(); r.Kind == job.Undo {
			undone[r.Field] = true
		}
	}
	for entity, tally := range state.Tallies {
		counted, covers, total := job.Stamp{}, map[string]bool{}, int64(0)
		for id, m := range w.made {
			at, there := stamps[id]
			if !there || m.op.Kind != job.Stocktake || m.op.Entity != entity || undone[id] || !counted.Less(at) {
				continue
			}
			var c job.Counted
			if err := json.Unmarshal(m.op.Value, &c); err != nil {
				return err
			}
			counted, covers, total = at, map[string]bool{}, c.N
			for _, covered := range c.Covers {
				covers[covered] = true
			}
		}
		for id, m := range w.made {
			if _, there := stamps[id]; there && m.op.Kind == job.Add && m.op.Entity == entity && !undone[id] && !covers[id] {
				total += m.op.Delta
			}
		}
		if got := tally.Total(); got != total {
			return fmt.Errorf("tally %s is %d, people made %d", entity, got, total)
		}
	}
	return nil
}

// order: nothing is overruled by what its author had in sight.
func (w *world) order(log string, recs []job.Rec) error {
	stamps := map[string]job.Stamp{}
	for _, r := range recs {
		stamps[r.ID] = r.Stamp()
	}
	for _, id := range sortedKeys(w.made) {
		m := w.made[id]
		at, there := stamps[id]
		if m.op.Kind != job.Set || m.log != log || !there {
			continue
		}
		for _, seen := range m.seen {
			if w.handedIn[seen] && w.result.Silent > 0 {
				continue // the database that was put back had forgotten its quarantine
			}
			if earlier, there := stamps[seen]; there && !earlier.Less(at) {
				return fmt.Errorf("%s %s: operation %s stands at %d, yet %s that its author had seen at %d; it had seen %v, its parents are %v", m.op.Entity, m.op.Field, id[2:8], at.Effective, seen[2:8], earlier.Effective, m.seen, m.op.Parents)
			}
		}
	}
	return nil
}
