package simulation

import (
	"errors"
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// act lets a person do something on a tab. It must always work, whatever the network and the clock do.
func (w *world) act(t *tab) error {
	if len(w.made) >= maxOps {
		return nil
	}
	if err := w.open(t); err != nil {
		return err
	}
	log := t.on.logs[w.rng.IntN(len(t.on.logs))]
	view, ok := t.phone.State(log)
	if !ok {
		return errors.New("a log that was loaded shows nothing")
	}
	changes := w.changes(t.on.role, log, view)
	if len(changes) == 0 {
		return nil
	}
	seen := make([][]string, len(changes))
	for i, c := range changes {
		for _, r := range view.Register(c.Entity, c.Field).Readings {
			seen[i] = append(seen[i], r.ID)
		}
	}
	ops, step, err := t.phone.Write(log, changes...)
	if err != nil {
		return fmt.Errorf("phone %s acts: %w", t.on.name, err)
	}
	if w.chance(4) {
		w.note("phone %s: killed before an act was stored", t.on.name)
		w.result.Kills++
		w.kill(t)
		return nil
	}
	if !w.commit(t, step) {
		w.result.Conflicts++
		return nil // it bounced back in sight of the person
	}
	for i, op := range ops {
		w.made[op.ID] = &made{op, log, t.on, seen[i], len(w.made)}
		w.result.Ops++
		w.note("phone %s: %s %s %s %s %d %s", t.on.name, op.ID[2:8], op.Kind, op.Entity, op.Field, op.Delta, op.Value)
	}
	if w.options.Sabotage == EarlyAck {
		w.forgetSent(t)
	}
	return nil
}

// forgetSent is what a phone does that clears its outbox when it sends.
func (w *world) forgetSent(t *tab) {
	if !w.chance(5) {
		return
	}
	for _, key := range sortedKeys(t.on.disk) {
		if strings.HasPrefix(key, "out/") {
			delete(t.on.disk, key)
		}
	}
	w.kill(t)
}

// changes picks what a person might do.
func (w *world) changes(role job.Role, log string, view *job.State) []job.Change {
	if strings.HasSuffix(log, sync.OwnSuffix) {
		return []job.Change{job.Put("own/contact", "name", fmt.Sprintf("Town library %d", w.ids))}
	}
	card := fmt.Sprintf("card/make/%d", w.rng.IntN(3))
	switch roll := w.rng.Float64() * 100; {
	case roll < 25:
		return []job.Change{job.Put(card, "done", w.chance(50))}
	case roll < 40:
		return []job.Change{job.Put("pack/latex/11/coral", "have", w.ids), job.Put(card, "taken", fmt.Sprintf("Bea %d", w.ids))}
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
		return []job.Change{job.Put("piece/door", "name", fmt.Sprintf("Door garland %d", w.ids))} // a helper's is denied
	}
	return []job.Change{job.Put("piece/door", "length_mm", 3000+w.rng.IntN(2000)), job.Put("piece/door", "removed", w.chance(30))}
}
