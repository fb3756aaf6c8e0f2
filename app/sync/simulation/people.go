package simulation

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
)

// act makes a person do something on a tab. It must always work, whatever the network and the clock do.
func (w *world) act(t *tab) error {
	if len(w.made) >= maxOps {
		return nil
	}
	if err := w.open(t); err != nil || t.phone == nil {
		return err
	}
	log := t.on.logs[w.rng.IntN(len(t.on.logs))]
	if err := w.ready(t, log); err != nil || t.phone == nil {
		return err
	}
	view, ok := t.phone.State(log)
	if !ok {
		return nil // the storage refuses, and the page says so
	}
	changes := w.changes(t.on.role, log, view)
	if len(changes) == 0 {
		return nil
	}
	tap := w.newTap(t.on, log, changes)
	kept := t.on.journal.keep(tap)
	if !w.calm && w.chance(3) {
		w.note("phone %s: killed before an act was stored", t.on.name)
		w.result[Kills]++
		w.kill(t)
		return nil
	}
	return w.enter(t, tap, kept)
}

// ready loads a log before it is used.
func (w *world) ready(t *tab, log string) error {
	_, err := w.do(t, func() (phone.Step, []phone.Row, error) { return phone.Step{}, nil, w.loadLog(t, log) })
	return err
}

// enter stores a tap's operations and records what the person is told.
func (w *world) enter(t *tab, tap *tap, kept bool) error {
	var ops []job.Op
	got, err := w.do(t, func() (phone.Step, []phone.Row, error) {
		ops = nil
		if t.posts[postKey(tap)] { // stored before, but the answer was lost
			return phone.Step{}, nil, nil
		}
		if err := w.loadLog(t, tap.log); err != nil {
			return phone.Step{}, nil, err
		}
		view, ok := t.phone.State(tap.log)
		if !ok {
			return phone.Step{}, nil, errors.New("a log that was loaded shows nothing")
		}
		seen := make([][]string, len(tap.changes))
		for i, c := range tap.changes {
			seen[i] = t.on.sight(view.Register(c.Entity, c.Field).Readings)
		}
		if w.options.Sabotage != NamesAnew {
			w.naming, w.named = tap, 0
		}
		var waiting []string
		for _, op := range t.phone.Unsent(tap.log) {
			waiting = append(waiting, op.ID)
		}
		made, step, err := t.phone.Write(tap.log, tap.changes...)
		w.naming = nil
		if err != nil {
			return step, nil, fmt.Errorf("phone %s acts: %w", t.on.name, err)
		}
		ops = made
		for i, op := range ops {
			if slices.Contains(waiting, op.ID) { // in the outbox from an earlier try, which had seen something else
				seen[i] = nil
			}
		}
		t.draft = w.drafts(tap, t.on, ops, seen)
		return step, []phone.Row{{Key: postKey(tap), Value: []byte("1")}}, nil
	})
	if err != nil {
		return err
	}
	if got == done && !w.calm && w.chance(2) {
		w.note("phone %s: killed before the page heard that an act was stored", t.on.name)
		w.result[Kills]++
		w.kill(t)
		return nil
	}
	if got == done {
		w.saved(t, tap, ops)
		return nil
	}
	return w.withoutStorage(t, tap, ops, kept)
}

// sight lists the values of a register that a person sees: the current one, and the server's if the current one is
// pending. The values that these overruled were seen before, unless operations were brought back out of order.
func (ph *device) sight(readings []job.Reading) []string {
	var ids []string
	for i, r := range readings {
		if !ph.mixed || i == 0 || readings[0].Pending() && !r.Pending() {
			ids = append(ids, r.ID)
		}
		if ph.mixed && !r.Pending() {
			break
		}
	}
	return ids
}

// saved tells the person that a tap is saved.
func (w *world) saved(t *tab, tap *tap, ops []job.Op) {
	tap.told = saved
	if e := t.on.journal.of(tap); e != nil {
		e.stored = true
		if len(ops) > 0 {
			e.ops = ops
		} else if len(e.ops) == 0 {
			t.on.journal.drop(tap) // stored in an earlier life: only the outbox has its operations
		}
	}
	if w.options.Sabotage == EarlyAck {
		w.forgetSent(t)
	}
}

// withoutStorage handles a tap that the storage refused: it goes to the server at once or waits in the journal.
func (w *world) withoutStorage(t *tab, tap *tap, ops []job.Op, kept bool) error {
	if kept {
		tap.told = waits
	}
	e := t.on.journal.of(tap)
	if e != nil && len(ops) > 0 {
		e.ops = ops
	}
	if e != nil && t.posts[postKey(tap)] { // it was written, and the answer was lost
		e.stored = true
	}
	// A tab without storage may have sent it already.
	for _, m := range w.drafts(tap, t.on, ops, nil) {
		w.keep(m, false)
	}
	if len(ops) == 0 || t.phone == nil || w.calm || !w.chance(70) {
		return nil
	}
	if err := w.ready(t, tap.log); err != nil || t.phone == nil {
		return err
	}
	req, ok := t.phone.Request(tap.log, w.time+t.on.clock)
	if !ok || req.Closed || len(req.Ops) < len(t.phone.Unsent(tap.log)) {
		return nil // older operations go first
	}
	req.Ops, req.Heal = append(req.Ops[:len(req.Ops):len(req.Ops)], ops...), nil
	if w.options.Sabotage == JournalDropsEarly {
		t.on.journal.drop(tap)
	}
	w.result[Straight]++
	w.note("phone %s sends %s straight to the server", t.on.name, opsText(ops))
	w.wire = append(w.wire, message{tab: t, life: t.life, log: tap.log, req: req, straight: tap, ops: ops})
	return nil
}

// replay repeats the journal's entries when a tab starts, except those that the storage knows.
func (w *world) replay(t *tab) error {
	for _, e := range append([]*entry(nil), t.on.journal.entries...) {
		if t.phone == nil || t.on.journal.of(e.tap) != e {
			continue
		}
		if t.posts[postKey(e.tap)] { // as in the app, the entry stays until it is shared
			e.stored = true
			continue
		}
		if len(e.ops) == 0 {
			w.note("phone %s: the journal brings %s", t.on.name, e.tap.id)
			w.result[Replayed]++
			if err := w.enter(t, e.tap, true); err != nil {
				return err
			}
			continue
		}
		got, err := w.do(t, func() (phone.Step, []phone.Row, error) {
			if t.posts[postKey(e.tap)] {
				return phone.Step{}, nil, nil
			}
			if err := w.loadLog(t, e.tap.log); err != nil {
				return phone.Step{}, nil, err
			}
			step, err := t.phone.Adopt(e.tap.log, t.phone.Author(), e.ops...)
			t.on.mixed = true
			if step.Empty() { // the outbox has the operations
				return step, nil, err
			}
			for _, op := range e.ops {
				if w.made[op.ID] == nil {
					t.draft = append(t.draft, w.drafts(e.tap, t.on, []job.Op{op}, nil)...)
				}
			}
			return step, []phone.Row{{Key: postKey(e.tap), Value: []byte("1")}}, err
		})
		if err != nil {
			return err
		}
		if got == done {
			w.result[Replayed]++
			w.note("phone %s: the journal brings back %s", t.on.name, opsText(e.ops))
			e.stored, e.tap.told = true, saved
		}
	}
	return nil
}

// forgetSent is the sabotage EarlyAck: the phone clears its outbox when it sends.
func (w *world) forgetSent(t *tab) {
	if !w.chance(5) {
		return
	}
	for _, key := range sortedKeys(t.on.disk.rows) {
		if strings.HasPrefix(key, "out/") {
			delete(t.on.disk.rows, key)
		}
	}
	t.on.journal.entries = nil
	w.kill(t)
}

// changes picks a person's next change at random.
func (w *world) changes(role job.Role, log string, view *job.State) []job.Change {
	if strings.HasSuffix(log, sync.OwnSuffix) {
		return []job.Change{job.Put("own/contact", "name", fmt.Sprintf("Town library %d", w.ids))}
	}
	card := fmt.Sprintf("card/make/%d", w.rng.IntN(3))
	switch roll := w.rng.Float64() * 100; {
	case roll < 25:
		return []job.Change{job.Put(card, "done", w.chance(50))}
	case roll < 40:
		return []job.Change{job.Put("pack/latex/11/coral", "have", w.ids),
			job.Put(card, "taken", fmt.Sprintf("Bea %d", w.ids))}
	case roll < 65:
		return []job.Change{job.Count(card, int64(w.rng.IntN(5))+1)}
	case roll < 78:
		if live := view.Tally(card).Live(); len(live) > 0 {
			return []job.Change{job.TakeBack(card, live[w.rng.IntN(len(live))].ID)}
		}
		return nil
	case roll < 83:
		return job.CountedAs(view, card, int64(w.rng.IntN(30)))
	case roll < 86:
		return []job.Change{{Kind: "wave", Entity: card, Field: "hand", Value: []byte(`{"of":"a newer version"}`)}}
	case roll < 90 || role == job.Helper:
		if role == job.Helper && w.chance(50) {
			return nil
		}
		return []job.Change{job.Put("piece/door", "name", fmt.Sprintf("Door garland %d", w.ids))} // denied to a helper
	case roll < 91 && role == job.Owner:
		w.result[Archived]++
		w.archived = true
		return []job.Change{job.Put("brief", "away", w.chance(70))}
	}
	return []job.Change{job.Put("piece/door", "length_mm", 3000+w.rng.IntN(2000)),
		job.Put("piece/door", "removed", w.chance(30))}
}

func opsText(ops []job.Op) string {
	parts := make([]string, len(ops))
	for i, op := range ops {
		parts[i] = op.ID[2:8]
	}
	return "[" + strings.Join(parts, ", ") + "]"
}
