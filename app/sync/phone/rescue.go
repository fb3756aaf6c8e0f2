package phone

import (
	"garlandry/app/job"
	"garlandry/app/sync"
)

// Merge moves everything from an earlier Phone in memory into this one, which was just opened from a storage that lacks
// some of it: the storage was cleared under the running page, or refused to write. Unsent operations and notes keep
// their ids. A log that the storage lacks comes with its folded state and can be shown without signal. If fresh, the
// storage was empty and the device id stays the same. The earlier Phone must not be used afterwards.
func (p *Phone) Merge(before *Phone, fresh bool) (Step, error) {
	var w writing
	if fresh {
		p.writer.Device, p.writer.Number = before.writer.Device, before.writer.Number
		p.writer.LastWall, p.writer.Counter = before.writer.LastWall, before.writer.Counter
	}
	p.writer.Number = max(p.writer.Number, before.writer.Number) // numbers stay unique
	if before.author != (job.Author{}) {
		p.author = before.author
	}
	p.order = max(p.order, before.order)
	for _, id := range before.allLogs() {
		p.mergeLog(&w, id, before.logs[id], before.logs[id].asUnsent())
		if l := p.logs[id]; l != nil {
			p.sortOut(&w, l)
		}
	}
	p.mergeHanded(&w, before)
	have := map[string]bool{}
	for _, n := range p.notes {
		have[n.Key] = true
	}
	for _, n := range before.notes {
		if !have[n.Key] && n.Kind != NoteDamaged {
			p.notes = append(p.notes, n)
			w.put(n.Key, n)
		}
	}
	return p.finish(&w)
}

func (p *Phone) mergeLog(w *writing, id string, old *phoneLog, unsent []*outRow) {
	l, there := p.logs[id]
	if !old.meta.Held {
		return
	}
	if there && (l.meta.Cursor != (sync.Cursor{}) || l.meta.Phase != following || !old.loaded) {
		p.mergeOut(w, l, unsent)
		return
	}
	p.logs[id] = old
	p.keepLog(w, old)
	if there {
		for _, row := range l.out {
			w.delete(keyOut(id, row.order))
		}
	}
	for _, row := range old.out {
		w.put(keyOut(id, row.order), row)
	}
	if there {
		p.mergeOut(w, old, l.out)
	}
	p.mergeOut(w, old, unsent)
}

// Stored tells the phone that the storage now has everything in memory, including what left the outbox.
func (p *Phone) Stored() {
	for _, l := range p.logs {
		l.removed = nil
	}
}

// asUnsent lists copies of the outbox rows, and of those that left it since the last [Phone.Stored], as unsent: the
// answers that settled them may be lost with the storage. The server recognises repeats by their ids.
func (l *phoneLog) asUnsent() []*outRow {
	rows := append(append([]*outRow(nil), l.out...), l.removed...)
	for i, row := range rows {
		rows[i] = &outRow{Op: row.Op, By: row.By}
	}
	return rows
}

// mergeOut adds the rows that are not in the log's outbox yet.
func (p *Phone) mergeOut(w *writing, l *phoneLog, rows []*outRow) {
	have := map[string]bool{}
	for _, row := range l.out {
		have[row.Op.ID] = true
	}
	for _, row := range rows {
		if have[row.Op.ID] {
			continue
		}
		moved := &outRow{Op: row.Op, By: row.By, Acked: row.Acked, Held: row.Held, order: p.nextOrder()}
		l.out = append(l.out, moved)
		w.put(keyOut(l.id, moved.order), moved)
		if l.view != nil {
			l.view.Apply(moved.pending(p.author))
		}
	}
}

// keepLog writes a log from memory into a storage that lacks it.
func (p *Phone) keepLog(w *writing, l *phoneLog) {
	switch {
	case !l.loaded: // its records are not in memory: they are pulled again
		l.meta.Cursor, l.meta.Mark, l.meta.Count, l.meta.Digest, l.meta.digest = sync.Cursor{}, sync.Cursor{}, 0, "", 0
		l.meta.Snapshot, l.meta.Phase, l.meta.Shared = 0, following, 0
		l.whole, l.searching = false, false
		l.markUnsent(w)
	case l.meta.Phase == following:
		if l.meta.Snapshot = l.meta.Cursor.Seq; l.meta.Snapshot > 0 {
			w.put(keySnap(l.id), snapshot{l.meta.Generation, l.meta.Cursor.Seq, l.accepted})
		}
	default: // a restored server still lacks some records
		for i, rec := range l.old {
			w.put(keyRec(l.id, l.meta.Generation-1, uint64(i)+1), rec)
		}
		for _, rec := range l.fresh {
			w.put(keyRec(l.id, l.meta.Generation, rec.Seq), rec)
		}
	}
	w.put(keyLog(l.id), l.meta)
}

// Revision goes up with every change of the phone.
func (p *Phone) Revision() uint64 { return p.rev }

// UnsentMarks lists the [job.PostMark] of every operation in every log that the server has not acknowledged.
func (p *Phone) UnsentMarks() map[string]bool {
	marks := map[string]bool{}
	for _, l := range p.logs {
		for _, row := range l.out {
			if !row.settled() {
				marks[job.PostMark(row.Op.ID)] = true
			}
		}
	}
	return marks
}
