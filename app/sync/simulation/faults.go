package simulation

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// step does one random thing: a person's act, an exchange or a fault.
func (w *world) step() error {
	switch roll := w.rng.Float64() * 100; {
	case roll < 34:
		return w.act(w.anyTab())
	case roll < 57:
		return w.post(w.anyTab())
	case roll < 86:
		return w.deliver()
	case roll < 89.5:
		t := w.anyTab()
		if t.phone != nil {
			w.note("phone %s: a tab is killed", t.on.name)
			w.result[Kills]++
			w.kill(t)
		}
	case roll < 92:
		w.badStorage(w.anyPhone())
	case roll < 94:
		ph := w.anyPhone()
		ph.clock = w.clockError()
		w.note("phone %s: clock jumps to %.2f days off", ph.name, float64(ph.clock)/float64(day))
	case roll < 95:
		w.serverOff = -int64(w.rng.Float64() * 600_000)
		w.note("server: clock %.0f s behind", float64(-w.serverOff)/1000)
	case roll < 96.3:
		w.note("server: backup")
		w.backups++
		return w.server.Backup(w.serverNow())
	case roll < 97.4:
		return w.restore()
	case roll < 98:
		w.clonePhone()
	case roll < 98.9:
		return w.revoke()
	case roll < 99.1:
		if w.archived && !w.month {
			w.month = true
			w.time += 31 * day
			w.note("a month passes")
		}
	default:
		return w.intrude()
	}
	return nil
}

// badStorage fills, empties or frees a phone's storage, or loses its journal.
func (w *world) badStorage(ph *device) {
	switch roll := w.rng.Float64() * 100; {
	case ph.disk.full:
		ph.disk.full = false
		w.note("phone %s: storage has room again", ph.name)
	case roll < 45:
		ph.disk.full = true
		w.result[Full]++
		w.note("phone %s: storage is full", ph.name)
	case roll < 80:
		what := "the storage of phone " + ph.name + " was emptied"
		if ph.running() != nil {
			w.result[Evicted]++
			what += " under a running tab"
		} else {
			w.result[Closed]++
		}
		w.note("%s", what)
		ph.disk.evict()
		ph.emptied++
		w.countAll(what)
	case len(ph.journal.entries) > 0:
		w.result[Journals]++
		w.note("phone %s: the journal is lost", ph.name)
		*ph.journal = journal{}
		w.countAll("the journal of phone " + ph.name + " was lost")
	}
}

func (w *world) restore() error {
	if w.backups == 0 || w.result[Restores]+w.result[Silent] >= 2 {
		return nil
	}
	announced := w.chance(60)
	if announced {
		w.result[Restores]++
	} else {
		w.result[Silent]++
	}
	w.note("server: restored from backup, announced %v", announced)
	held, err := w.waiting()
	if err != nil {
		return err
	}
	if err := w.server.Restore(announced, w.serverNow()); err != nil {
		return err
	}
	now, err := w.waiting()
	if err != nil {
		return err
	}
	for _, id := range sortedKeys(held) {
		if announced && !now[id] && w.made[id] != nil && !w.onServer(id) && w.kept(HeldOutlives) {
			return fmt.Errorf("operation %s was in quarantine and is lost by a restore", id[2:8])
		}
	}
	w.countAll("the server was restored")
	return nil
}

// waiting lists the operations in quarantine.
func (w *world) waiting() (map[string]bool, error) {
	ids := map[string]bool{}
	for _, log := range w.logs() {
		held, err := w.server.Held(log)
		if err != nil {
			return nil, err
		}
		for _, h := range held {
			ids[h.Op.ID] = true
		}
	}
	return ids, nil
}

// clonePhone copies a phone, as a transfer between phones does.
func (w *world) clonePhone() {
	if w.result[Clones] > 0 {
		return
	}
	from := w.anyPhone()
	if len(from.disk.rows) == 0 {
		return
	}
	w.result[Clones]++
	ph := &device{name: from.name + "'s copy", member: from.member, role: from.role, disk: from.disk.clone(),
		journal: from.journal.clone(), clock: w.clockError(), logs: from.logs, emptied: from.emptied,
		mixed: from.mixed}
	ph.tabs = []*tab{{on: ph}}
	w.phones = append(w.phones, ph)
	w.note("phone %s is copied", from.name)
}

// revoke revokes a helper's link, or signs out one of the owner's devices but the first.
func (w *world) revoke() error {
	ph := w.anyPhone()
	kind := Revoked
	if ph.role == job.Owner {
		kind = Devices
	}
	if ph.member == 0 || w.result[kind] > 0 {
		return nil
	}
	w.result[kind]++
	w.closed[ph.member] = true
	w.note("server: the access of %s is revoked", ph.name)
	return w.server.Revoke(ph.member, w.serverNow())
}

// closings checks that a closed session is still closed, even after a restore, and that helpers lose access a month
// after the job was archived.
func (w *world) closings(ph *device, closed string, late bool) error {
	if w.closed[ph.member] && closed == "" && w.kept(ClosingsOutlive) {
		return fmt.Errorf("phone %s was closed and has access again", ph.name)
	}
	switch {
	case !w.month || ph.role == job.Owner:
	case closed == sync.Ended:
		w.result[Late]++
	case closed == "" && late && w.kept(ThirtyDays):
		return fmt.Errorf("phone %s has access to a job archived more than thirty days ago", ph.name)
	}
	return nil
}

// late reports whether the job was archived more than thirty days ago.
func (w *world) late(now int64) (bool, error) {
	if !w.month {
		return false, nil
	}
	recs, err := w.server.Recs(jobID)
	if err != nil {
		return false, err
	}
	var last job.Rec
	for _, r := range recs {
		if r.Kind == job.Set && r.Entity == "brief" && r.Field == "away" && !w.before(r, last) {
			last = r
		}
	}
	return string(last.Value) == "true" && now >= last.Effective+30*day, nil
}

// before orders records by the rules, without app/job's code.
func (w *world) before(a, b job.Rec) bool {
	switch {
	case a.Effective != b.Effective:
		return a.Effective < b.Effective
	case a.Device != b.Device:
		return a.Device < b.Device
	case a.Number != b.Number:
		return a.Number < b.Number
	}
	return a.ID < b.ID
}
