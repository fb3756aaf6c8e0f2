package phone

import (
	"slices"

	"garlandry/app/sync"
)

// setHanded stores what the server last answered to something sent over a closed link.
func (p *Phone) setHanded(w *writing, answer sync.HandedLog) {
	if p.handed[answer.Log] != answer {
		p.handed[answer.Log] = answer
		w.put(keyHanded(answer.Log), answer)
	}
}

func (p *Phone) dropHanded(w *writing, log string) {
	if _, there := p.handed[log]; there {
		delete(p.handed, log)
		w.delete(keyHanded(log))
	}
}

// mergeHanded copies the server's answers about handed-in work from an earlier Phone in memory.
func (p *Phone) mergeHanded(w *writing, before *Phone) {
	logs := make([]string, 0, len(before.handed))
	for log := range before.handed {
		logs = append(logs, log)
	}
	slices.Sort(logs)
	for _, log := range logs {
		if _, have := p.handed[log]; !have {
			p.setHanded(w, before.handed[log])
		}
	}
}

// noteOf finds the note of a kind about an operation.
func (p *Phone) noteOf(id string, kind NoteKind) (Note, bool) {
	for _, n := range p.notes {
		if n.Op != nil && n.Op.ID == id && n.Kind == kind {
			return n, true
		}
	}
	return Note{}, false
}

// HandedLogs lists the logs with something in quarantine, as far as this phone knows, sorted. It includes logs that
// have left the phone since.
func (p *Phone) HandedLogs() []string {
	logs := map[string]bool{}
	for _, n := range p.notes {
		if n.Kind == NoteQuarantined && n.Op != nil {
			logs[n.Log] = true
		}
	}
	for id, l := range p.logs {
		for _, row := range l.out {
			if row.Held {
				logs[id] = true
			}
		}
	}
	ids := make([]string, 0, len(logs))
	for id := range logs {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// SendAgain handles the server's status of a log whose link is closed, for the reason given. If the server has lost
// what this phone had sent, those operations count as unsent again and are sent once more. The answer settles
// them, even if the server still had them or the owner had ignored them.
func (p *Phone) SendAgain(status sync.HandedLog, closed string) (Step, error) {
	before, known := p.handed[status.Log]
	if known && !lost(status, before) {
		return Step{}, nil
	}
	var w writing
	l := p.log(status.Log)
	here := map[string]bool{}
	for _, row := range l.out {
		here[row.Op.ID] = true
		if row.Held {
			row.Held = false
			w.put(keyOut(l.id, row.order), row)
		}
	}
	for _, n := range p.notes {
		if n.Log == l.id && n.Kind == NoteQuarantined && n.Op != nil && !here[n.Op.ID] {
			here[n.Op.ID] = true
			p.enqueue(&w, l, *n.Op, p.author)
		}
	}
	if len(w.step.Put) == 0 {
		return Step{}, w.err
	}
	if !l.meta.Held { // the log had left the phone: only the operations to send come back
		l.meta = logMeta{Held: true, Bare: true, Since: p.options.Now(), Closed: closed}
		w.put(keyLog(l.id), l.meta)
	}
	return p.finish(&w)
}

// lost reports whether the server may have less than before: it went back in time, or fewer operations wait. It looks
// the same when the owner has accepted some; handing them in again does no harm.
func lost(now, before sync.HandedLog) bool {
	if now.Held < before.Held {
		return true
	}
	if now.Epoch == "" || before.Epoch == "" {
		return false
	}
	return now.Epoch != before.Epoch || now.Seq < before.Seq || now.Seq == before.Seq && now.Hash != before.Hash
}
