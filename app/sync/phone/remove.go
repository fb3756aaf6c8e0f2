package phone

// WouldLose reports what is lost if the log is removed now: the number of unsent operations, and whether a restored
// server still lacks records from here.
func (p *Phone) WouldLose(log string) (unsent int, heals bool) {
	l, held := p.logs[log]
	if !held {
		return 0, false
	}
	heals = l.meta.Phase != following && (!l.loaded || len(l.unhealed()) > 0)
	return len(p.Unsent(log)), heals
}

// Remove deletes a log from the phone with everything stored for it, including its notes. If something would be lost,
// it deletes nothing and returns [ErrUnsent], unless lose is true.
func (p *Phone) Remove(log string, lose bool) (Step, error) {
	if _, held := p.logs[log]; !held {
		return Step{}, ErrUntracked
	}
	if unsent, heals := p.WouldLose(log); !lose && (unsent > 0 || heals) {
		return Step{}, ErrUnsent
	}
	delete(p.logs, log)
	kept := p.notes[:0:0]
	for _, n := range p.notes {
		if n.Log != log {
			kept = append(kept, n)
		}
	}
	p.notes = kept
	var w writing
	for _, kind := range []string{"out/", "note/", "rec/"} {
		w.drop(prefix(kind + log + "/"))
	}
	w.delete(keyLog(log))
	w.delete(keySnap(log))
	return p.finish(&w)
}
