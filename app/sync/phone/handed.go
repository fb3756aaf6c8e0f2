package phone

import (
	"slices"

	"garlandry/app/sync"
)

// keepHanded notes what the server said when it took something from a closed link.
func (p *Phone) keepHanded(w *writing, said sync.HandedLog) {
	if p.handed[said.Log] != said {
		p.handed[said.Log] = said
		w.put(keyHanded(said.Log), said)
	}
}

func (p *Phone) dropHanded(w *writing, log string) {
	if _, there := p.handed[log]; there {
		delete(p.handed, log)
		w.delete(keyHanded(log))
	}
}

// mergeHanded takes over what an earlier Phone in memory knows of what was handed in.
func (p *Phone) mergeHanded(w *writing, before *Phone) {
	logs := make([]string, 0, len(before.handed))
	for log := range before.handed {
		logs = append(logs, log)
	}
	slices.Sort(logs)
	for _, log := range logs {
		if _, have := p.handed[log]; !have {
			p.keepHanded(w, before.handed[log])
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

// HandedLogs lists the logs of which something is in quarantine, as far as this phone knows, sorted; also those that
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

// HandInAgain takes in what the server says of a log whose link is closed, for the reason given. Where it has lost what
// this phone had handed in, that counts as unsent again; the answer to handing it in settles it anew. A server that has
// it still, or that the owner had ignore it, says so then, and is asked no more until it says something else.
func (p *Phone) HandInAgain(told sync.HandedLog, closed string) (Step, error) {
	before, known := p.handed[told.Log]
	if known && !lost(told, before) {
		return Step{}, nil
	}
	var w writing
	l := p.log(told.Log)
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
	if !l.meta.Held { // it had left the phone: only what is handed in comes back
		l.meta = logMeta{Held: true, Bare: true, Since: p.options.Now(), Closed: closed}
		w.put(keyLog(l.id), l.meta)
	}
	return p.finish(&w)
}

// lost reports whether the server may have less than it said before: it went back in time, or less of what was handed
// in waits. The owner taking some of it in looks the same; handing in once more does no harm then.
func lost(h, before sync.HandedLog) bool {
	if h.Held < before.Held {
		return true
	}
	if h.Epoch == "" || before.Epoch == "" {
		return false
	}
	return h.Epoch != before.Epoch || h.Seq < before.Seq || h.Seq == before.Seq && h.Hash != before.Hash
}
