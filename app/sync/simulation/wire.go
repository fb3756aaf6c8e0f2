package simulation

import (
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
)

// message is a request on its way to the server, or an answer on its way back.
type message struct {
	tab      *tab
	life     int
	log      string
	req      sync.Request
	answer   *sync.Response
	straight *tap     // set if the phone's storage refused this tap
	ops      []job.Op // the tap's operations, sent after the outbox
}

// post starts an exchange from a tab.
func (w *world) post(t *tab) error {
	if err := w.open(t); err != nil || t.phone == nil {
		return err
	}
	log := t.on.logs[w.rng.IntN(len(t.on.logs))]
	if err := w.ready(t, log); err != nil || t.phone == nil {
		return err
	}
	req, ok := t.phone.Request(log, w.time+t.on.clock)
	if !ok {
		return nil
	}
	w.note("phone %s posts %s: %s, %d healed %s, from %d of %s", t.on.name, log, opsText(req.Ops), len(req.Heal),
		healText(req.Heal), req.Cursor.Seq, req.Cursor.Epoch)
	w.wire = append(w.wire, message{tab: t, life: t.life, log: log, req: w.sabotage(req)})
	return nil
}

// sabotage changes a request as the broken build would.
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

// deliver delivers one message, loses it, or keeps a copy for later.
func (w *world) deliver() error {
	if len(w.wire) == 0 {
		return nil
	}
	i := w.rng.IntN(len(w.wire))
	m := w.wire[i]
	if !w.chance(10) {
		w.wire = append(w.wire[:i:i], w.wire[i+1:]...)
	} // else it is delivered again later
	if w.chance(18) {
		w.result[Lost]++
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
	now := w.serverNow()
	late, err := w.late(now) // before the request, which may itself bring back the archiving
	if err != nil {
		return sync.Response{}, err
	}
	resp, err := w.server.Sync(m.tab.on.member, m.log, m.req, now)
	if err != nil {
		return resp, fmt.Errorf("serve phone %s: %w", m.tab.on.name, err)
	}
	for _, a := range resp.Acks {
		switch a.Result {
		case sync.Fork:
			w.result[Forks]++
		case sync.Quarantined:
			w.result[Quarantined]++
			w.handedIn[a.ID] = true
		case sync.Invalid:
			return resp, fmt.Errorf("operation %s of phone %s is called invalid: %s", a.ID, m.tab.on.name, a.Why)
		case sync.Denied:
			if m := w.made[a.ID]; m != nil && m.by.role == job.Owner && !w.closed[m.by.member] {
				return resp, fmt.Errorf("operation %s of the owner is denied: %s", a.ID, a.Why)
			}
		}
	}
	if m.tab.on.emptied > 0 {
		w.apart(m.log, resp.Acks)
	}
	if resp.Closed == sync.Ended {
		w.result[Ended]++
	}
	w.note("server answers phone %s: %s to %d of %d in %s, rewound %v, closed %q, acks %s", m.tab.on.name, m.log,
		resp.Seq, resp.Head, resp.Epoch, resp.Rewound, resp.Closed, ackText(resp.Acks))
	return resp, w.closings(m.tab.on, resp.Closed, late)
}

// apart marks operations that the server accepted before one that their author had seen. A phone whose storage was
// emptied has lost those records and cannot give them back to a server that has lost them too.
func (w *world) apart(log string, acks []sync.Ack) {
	var there map[string]bool
	place := map[string]int{}
	for i, a := range acks {
		place[a.ID] = i + 1
	}
	for i, a := range acks {
		m := w.made[a.ID]
		if m == nil || a.Result != sync.OK || m.op.Kind != job.Set {
			continue
		}
		if there == nil {
			there = w.present(log)
		}
		for _, seen := range m.seen {
			if (!there[seen] || place[seen] > i+1) && !m.apart {
				m.apart = true
				w.result[Apart]++
			}
		}
	}
}

// receive hands an answer to the tab that sent the request, if it still runs. The tab may be killed before it writes.
func (w *world) receive(m message) error {
	t := m.tab
	if t.phone == nil || t.life != m.life {
		return nil
	}
	if m.straight != nil {
		w.receiveStraight(m)
		return nil
	}
	if w.chance(5) {
		w.note("phone %s: killed before it stored an answer", t.on.name)
		w.result[Kills]++
		w.kill(t)
		return nil
	}
	_, err := w.storeAnswer(m)
	return err
}

// storeAnswer has a tab receive an answer and commit the step.
func (w *world) storeAnswer(m message) (verdict, error) {
	t := m.tab
	var step phone.Step
	before := map[string][]byte{}
	got, err := w.do(t, func() (phone.Step, []phone.Row, error) {
		if err := w.loadLog(t, m.log); err != nil {
			return phone.Step{}, nil, err
		}
		var err error
		step, err = t.phone.Receive(m.log, m.req, *m.answer, w.time+t.on.clock)
		if err != nil {
			return step, nil, fmt.Errorf("phone %s receives: %w", t.on.name, err)
		}
		clear(before)
		for _, key := range step.Delete {
			before[key] = t.on.disk.rows[key]
		}
		return step, nil, nil
	})
	if got != done || err != nil {
		return got, err
	}
	t.on.journal.settle(t.on.disk)
	w.discardLog(t, m.log, *m.answer)
	return got, w.keeps(t.on, before)
}

// receiveStraight handles the answer to operations that were sent without being stored.
func (w *world) receiveStraight(m message) {
	results := map[string]sync.Result{}
	for _, a := range m.answer.Acks {
		results[a.ID] = a.Result
	}
	for _, op := range m.ops {
		switch results[op.ID] {
		case "", sync.Fork:
			return
		case sync.Denied, sync.Invalid:
			w.made[op.ID].lost = "it was refused, and the page said so"
		}
	}
	for _, op := range m.ops {
		if made := w.made[op.ID]; made.lost == "" && !made.stored && !w.onServer(op.ID) {
			made.lost = "the server was restored while its answer was on the way"
			w.result[Destroyed]++
		}
	}
	m.straight.told = saved
	m.tab.on.journal.drop(m.straight)
}

// keeps checks that a step loses no operation: one that leaves the outbox is already stored elsewhere.
func (w *world) keeps(ph *device, before map[string][]byte) error {
	for key, row := range before {
		if !strings.HasPrefix(key, "out/") {
			continue
		}
		id := idOf(row)
		if _, real := w.made[id]; real && !ph.disk.holds(id, "rec/", "note/", "out/") && !w.onServer(id) {
			return fmt.Errorf("operation %s left phone %s", id, ph.name)
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

// discardLog is the sabotage NoReupload: the phone discards its log when the server has lost its own.
func (w *world) discardLog(t *tab, log string, resp sync.Response) {
	if w.options.Sabotage != NoReupload || !resp.Rewound {
		return
	}
	for _, key := range sortedKeys(t.on.disk.rows) {
		if strings.HasPrefix(key, "rec/"+log+"/") {
			delete(t.on.disk.rows, key)
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
