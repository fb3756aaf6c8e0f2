package phone

import (
	"garlandry/app/job"
	"garlandry/app/sync"
)

// recover starts pulling a log from its beginning, because the server went back in time or the digests differ. The
// records here stay as an earlier generation until the server has them again. Operations that it had acknowledged
// without sending the record count as unsent.
func (p *Phone) recover(w *writing, l *phoneLog) {
	l.meta.Generation++
	l.meta.Cursor, l.meta.Mark, l.meta.Count, l.meta.Digest, l.meta.digest = sync.Cursor{}, sync.Cursor{}, 0, "", 0
	l.meta.Snapshot, l.meta.Phase = 0, repulling
	l.loaded, l.whole, l.searching = false, false, false
	l.healed, l.refused = map[string]bool{}, map[string]string{}
	l.markUnsent(w)
	w.delete(keySnap(l.id))
	w.put(keyLog(l.id), l.meta)
}

// markUnsent marks everything in the outbox as unsent again.
func (l *phoneLog) markUnsent(w *writing) {
	for _, row := range l.out {
		if row.settled() {
			row.Acked, row.Held = false, false
			w.put(keyOut(l.id, row.order), row)
		}
	}
}

// takeRecovering handles a record that comes while recovering. It reports whether to apply it to the state.
func (l *phoneLog) takeRecovering(rec job.Rec) (news bool) {
	l.fresh = append(l.fresh, rec)
	at, was := l.missing[rec.ID]
	if !was {
		return true
	}
	if old := l.old[at]; sync.IDTaken(rec, old.Op, old.Author) { // ours never comes back; recovered notes it
		l.refused[rec.ID] = sync.WhyIDTaken
		return true
	}
	delete(l.missing, rec.ID)
	if rec.Kind == job.Emptied {
		l.refold = true
	} else if l.old[at].Stamp() != rec.Stamp() {
		l.restamped[rec.ID], l.refold = true, true
	}
	return false
}

// unhealed lists the records still to send back, in the order to send them: parents first.
func (l *phoneLog) unhealed() []job.Rec {
	var recs []job.Rec
	for _, rec := range l.old {
		_, missing := l.missing[rec.ID]
		if _, refused := l.refused[rec.ID]; (missing || l.restamped[rec.ID]) && !refused && !l.healed[rec.ID] {
			recs = append(recs, rec)
		}
	}
	return recs
}

// complete reports whether the server has everything again, except what it refused.
func (l *phoneLog) complete() bool {
	for id := range l.missing {
		if _, refused := l.refused[id]; !refused {
			return false
		}
	}
	return len(l.unhealed()) == 0
}

// recovered ends a recovery at the head of the log. Of the records that the server refused, this phone's own are sent
// again as unsent operations; those of others become notes.
func (r *receiving) recovered() {
	l := r.log
	for _, rec := range l.old {
		why, refused := l.refused[rec.ID]
		if _, missing := l.missing[rec.ID]; !missing || !refused {
			continue
		}
		if rec.Device == r.phone.writer.Device && why != sync.WhyIDTaken {
			r.phone.enqueue(&r.w, l, rec.Op, rec.Author)
			continue
		}
		op := rec.Op
		r.phone.note(&r.w, Note{Log: l.id, Kind: NoteRefused, Op: &op, By: rec.Author, Why: why, At: r.now})
	}
	l.accepted = job.Fold(l.fresh...)
	l.meta.Phase = following
	l.old, l.fresh, l.missing, l.restamped = nil, nil, nil, nil
	l.healed, l.refused = map[string]bool{}, map[string]string{}
	r.w.drop(Range{prefix("rec/" + l.id + "/").From, keyGeneration(l.id, l.meta.Generation)})
	r.snapshot()
	r.viewStale = true
}
