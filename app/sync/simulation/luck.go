package simulation

import (
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// step does one thing, good or bad.
func (w *world) step() error {
	switch roll := w.rng.Float64() * 100; {
	case roll < 34:
		return w.act(w.anyTab())
	case roll < 58:
		return w.post(w.anyTab())
	case roll < 88:
		return w.deliver()
	case roll < 92:
		t := w.anyTab()
		if t.phone != nil {
			w.note("phone %s: a tab is killed", t.on.name)
			w.result.Kills++
			w.kill(t)
		}
	case roll < 94.5:
		ph := w.phones[w.rng.IntN(len(w.phones))]
		ph.clock = w.clockError()
		w.note("phone %s: clock jumps to %.2f days off", ph.name, float64(ph.clock)/float64(day))
	case roll < 95.5:
		w.serverOff = -int64(w.rng.Float64() * 600_000)
		w.note("server: clock %.0f s behind", float64(-w.serverOff)/1000)
	case roll < 97:
		w.note("server: backup")
		w.backups++
		return w.server.Backup(w.serverNow())
	case roll < 98.2:
		return w.restore()
	case roll < 99.2:
		w.clonePhone()
	default:
		return w.revoke()
	}
	return nil
}

func (w *world) restore() error {
	if w.backups == 0 || w.result.Restores+w.result.Silent >= 2 {
		return nil
	}
	announced := w.chance(60)
	if announced {
		w.result.Restores++
	} else {
		w.result.Silent++
	}
	w.note("server: restored from backup, announced %v", announced)
	return w.server.Restore(announced, w.serverNow())
}

// clonePhone copies a disk to another phone, as a transfer between phones does.
func (w *world) clonePhone() {
	if w.result.Clones > 0 {
		return
	}
	from := w.phones[w.rng.IntN(len(w.phones))]
	if len(from.disk) == 0 {
		return
	}
	w.result.Clones++
	ph := &phone{name: from.name + "'s copy", member: from.member, role: from.role, disk: from.disk.clone(), clock: w.clockError(), logs: from.logs, isClone: true}
	ph.tabs = []*tab{{on: ph}}
	w.phones = append(w.phones, ph)
	w.note("phone %s is copied", from.name)
}

func (w *world) revoke() error {
	ph := w.phones[w.rng.IntN(len(w.phones))]
	if ph.role == job.Owner || w.result.Revoked > 0 {
		return nil
	}
	w.result.Revoked++
	w.note("server: link of %s taken back", ph.name)
	return w.server.Revoke(ph.member, w.serverNow())
}

// post starts an exchange from a tab.
func (w *world) post(t *tab) error {
	if err := w.open(t); err != nil {
		return err
	}
	log := t.on.logs[w.rng.IntN(len(t.on.logs))]
	if err := w.load(t, log); err != nil || t.phone == nil {
		return err
	}
	req, ok := t.phone.Request(log, w.time+t.on.clock)
	if !ok {
		return nil
	}
	w.note("phone %s posts %s: %d ops, %d healed %s, from %d of %s", t.on.name, log, len(req.Ops), len(req.Heal), healText(req.Heal), req.Cursor.Seq, req.Cursor.Epoch)
	w.wire = append(w.wire, message{tab: t, life: t.life, log: log, req: w.sabotage(req)})
	return nil
}

// sabotage is what a broken build would send.
func (w *world) sabotage(req sync.Request) sync.Request {
	switch w.options.Sabotage {
	case NoParents:
		req.Ops = append([]job.Op(nil), req.Ops...)
		for i := range req.Ops {
			req.Ops[i].Parents = nil
		}
	case NoDedup:
		req.Ops = append([]job.Op(nil), req.Ops...)
		for i := range req.Ops {
			req.Ops[i].ID, req.Ops[i].Number = w.newID(), req.Ops[i].Number+uint64(w.ids)*1000
		}
	}
	return req
}

// deliver moves one message on, loses it, or keeps a copy to come later.
func (w *world) deliver() error {
	if len(w.wire) == 0 {
		return nil
	}
	i := w.rng.IntN(len(w.wire))
	m := w.wire[i]
	if !w.chance(10) {
		w.wire = append(w.wire[:i:i], w.wire[i+1:]...)
	} // else it comes again later
	if w.chance(18) {
		w.result.Lost++
		w.note("a message of phone %s is lost", m.tab.on.name)
		return nil
	}
	if m.answer != nil {
		return w.receive(m)
	}
	answer, err := w.serve(m)
	if err != nil {
		return err
	}
	m.answer = &answer
	w.wire = append(w.wire, m)
	return nil
}

func (w *world) serve(m message) (sync.Response, error) {
	resp, err := w.server.Sync(m.tab.on.member, m.log, m.req, w.serverNow())
	if err != nil {
		return resp, fmt.Errorf("serve phone %s: %w", m.tab.on.name, err)
	}
	for _, a := range resp.Acks {
		switch a.Result {
		case sync.Fork:
			w.result.Forks++
		case sync.Quarantined:
			w.result.Quarantined++
			w.handedIn[a.ID] = true
		case sync.Invalid:
			return resp, fmt.Errorf("operation %s of phone %s is called invalid: %s", a.ID, m.tab.on.name, a.Why)
		}
	}
	if resp.Closed == sync.Ended {
		w.result.Ended++
	}
	w.note("server answers phone %s: %s to %d of %d in %s, rewound %v, closed %q, acks %s", m.tab.on.name, m.log, resp.Seq, resp.Head, resp.Epoch, resp.Rewound, resp.Closed, ackText(resp.Acks))
	return resp, nil
}

// throwAway is what a phone does that takes the server's word for everything: its own log goes when the server's did.
func (w *world) throwAway(t *tab, log string, resp sync.Response) {
	if w.options.Sabotage != NoReupload || !resp.Rewound {
		return
	}
	for _, key := range sortedKeys(t.on.disk) {
		if strings.HasPrefix(key, "rec/"+log+"/") {
			delete(t.on.disk, key)
		}
	}
	w.kill(t)
}

func healText(recs []job.Rec) string {
	parts := make([]string, len(recs))
	for i, r := range recs {
		parts[i] = fmt.Sprintf("%s at %d", r.ID[2:8], r.Effective-start)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

func ackText(acks []sync.Ack) string {
	parts := make([]string, len(acks))
	for i, a := range acks {
		parts[i] = a.ID[2:8] + " " + string(a.Result)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// receive hands an answer to the tab that asked, if it still lives. It may be killed before or after it has written.
func (w *world) receive(m message) error {
	t := m.tab
	if t.phone == nil || t.life != m.life {
		return nil
	}
	if err := w.load(t, m.log); err != nil || t.phone == nil {
		return err
	}
	step, err := t.phone.Receive(m.log, m.req, *m.answer, w.time+t.on.clock)
	if err != nil {
		return fmt.Errorf("phone %s receives: %w", t.on.name, err)
	}
	if w.chance(5) {
		w.note("phone %s: killed before it stored an answer", t.on.name)
		w.result.Kills++
		w.kill(t)
		return nil
	}
	before := storage{}
	for _, key := range step.Delete {
		before[key] = t.on.disk[key]
	}
	if !w.commit(t, step) {
		w.result.Conflicts++
		return nil
	}
	w.throwAway(t, m.log, *m.answer)
	return w.keeps(t.on, before, step)
}

// keeps checks that a step takes no operation off the phone: what leaves the outbox is stored elsewhere in the same
// step or before.
func (w *world) keeps(ph *phone, before storage, step sync.Step) error {
	for _, key := range step.Delete {
		if !strings.HasPrefix(key, "out/") {
			continue
		}
		for _, id := range idsIn(before[key]) {
			if _, real := w.made[id]; real && !ph.disk.holds(id, "rec/", "note/", "out/") && !w.onServer(id) {
				return fmt.Errorf("operation %s left phone %s", id, ph.name)
			}
		}
	}
	return nil
}

func (w *world) onServer(id string) bool {
	recs, err := w.server.Recs(w.made[id].log)
	for _, r := range recs {
		if r.ID == id {
			return true
		}
	}
	return err != nil
}

// idsIn finds the operation id in an outbox row.
func idsIn(row []byte) []string {
	const mark = `{"op":{"i":"`
	text := string(row)
	if !strings.HasPrefix(text, mark) {
		return nil
	}
	id, _, _ := strings.Cut(text[len(mark):], `"`)
	return []string{id}
}
