package simulation

import (
	"fmt"
	"strings"

	"garlandry/app/job"
)

// This file records what people did and were told. It calls no code under test.

// tap is one act of a person: a form that the page sends, perhaps more than once.
type tap struct {
	id      string
	number  int
	by      *device
	log     string
	changes []job.Change
	told    promise
	tries   []*trackedOp // its operations that were stored or sent
}

// promise is what the person was told about a tap.
type promise int

const (
	nothing promise = iota
	waits           // it waits in the journal
	saved           // this phone or the server has it
)

// trackedOp is an operation that was stored on a phone, or sent to the server because the phone's storage refused.
type trackedOp struct {
	op      job.Op
	tap     *tap
	log     string
	by      *device
	try     int      // number of the tap's try; operations of one try belong together
	emptied int      // how often the storage had been emptied before
	seen    []string // operations on the same register that its author had seen
	apart   bool     // the server accepted it without having all of seen
	stored  bool     // a phone's storage had it
	lost    string   // how its last copy was destroyed; empty if there is a copy
}

// newTap records a person's act.
func (w *world) newTap(ph *device, log string, changes []job.Change) *tap {
	w.taps++
	return &tap{id: fmt.Sprintf("form%06d", w.taps), number: w.taps, by: ph, log: log, changes: changes}
}

// drafts records operations before they are stored.
func (w *world) drafts(tap *tap, ph *device, ops []job.Op, seen [][]string) []*trackedOp {
	try := 0
	if n := len(tap.tries); n > 0 {
		try = tap.tries[n-1].try + 1
	}
	all := make([]*trackedOp, len(ops))
	for i, op := range ops {
		all[i] = &trackedOp{op: op, tap: tap, log: tap.log, by: ph, try: try, emptied: ph.emptied}
		if seen != nil {
			all[i].seen = seen[i]
		}
	}
	return all
}

// stored records that a tab's commit succeeded, even if its answer is lost.
func (w *world) stored(t *tab) {
	for _, m := range t.draft {
		w.keep(m, true)
	}
}

// keep records an operation that is in a storage or on its way to the server.
func (w *world) keep(m *trackedOp, stored bool) {
	if have := w.made[m.op.ID]; have != nil {
		have.stored = have.stored || stored
		return
	}
	m.stored = stored
	w.made[m.op.ID] = m
	m.tap.tries = append(m.tap.tries, m)
	w.result[Ops]++
	w.note("phone %s: %s %s %s %s %d %s", m.by.name, m.op.ID[2:8], m.op.Kind, m.op.Entity, m.op.Field, m.op.Delta,
		m.op.Value)
}

// count looks for a copy of each operation after something destroyed copies, and marks those without one as lost.
func (w *world) count(what string, ids []string) {
	var missing []*trackedOp
	copied := w.copied()
	for _, id := range ids {
		if m := w.made[id]; m != nil && m.lost == "" && !copied[id] {
			missing = append(missing, m)
		}
	}
	if len(missing) == 0 {
		return
	}
	there := w.present(w.logs()...)
	for _, m := range missing {
		if there[m.op.ID] {
			continue
		}
		m.lost = what
		w.result[Destroyed]++
		w.note("%s, and with that the last copy of %s", what, m.op.ID[2:8])
	}
}

// present lists the operations that the server has in the logs, including the quarantine.
func (w *world) present(logs ...string) map[string]bool {
	there := map[string]bool{}
	for _, log := range logs {
		recs, err := w.server.Recs(log)
		if err != nil && w.err == nil {
			w.err = err
		}
		for _, r := range recs {
			there[r.ID] = true
		}
		held, err := w.server.Held(log)
		if err != nil && w.err == nil {
			w.err = err
		}
		for _, h := range held {
			there[h.Op.ID] = true
		}
	}
	return there
}

// countAll looks for a copy of every operation.
func (w *world) countAll(what string) { w.count(what, sortedKeys(w.made)) }

// copied lists the operations that any phone has: in its storage, in its journal, or in a running tab.
func (w *world) copied() map[string]bool {
	ids := make(map[string]bool, len(w.made))
	for _, ph := range w.phones {
		for key, row := range ph.disk.rows {
			if strings.HasPrefix(key, "out/") || strings.HasPrefix(key, "rec/") || strings.HasPrefix(key, "note/") {
				ids[idOf(row)] = true
			}
		}
		for _, e := range ph.journal.entries {
			for _, op := range e.ops {
				ids[op.ID] = true
			}
		}
		for _, t := range ph.tabs {
			for _, id := range t.holds {
				ids[id] = true
			}
		}
	}
	return ids
}

// holders describes where phones have an operation.
func (w *world) holders(id string) string {
	var found []string
	for _, ph := range w.phones {
		for _, key := range sortedKeys(ph.disk.rows) {
			if strings.Contains(string(ph.disk.rows[key]), `"i":"`+id) {
				found = append(found, ph.name+" "+key)
			}
		}
		if ph.journal.holds(id) {
			found = append(found, ph.name+"'s journal")
		}
	}
	return strings.Join(found, ", ")
}
