package phone

// Left reports what of a log would be lost if it was taken off the phone now: operations not handed in, and whether a
// server that went back in time has yet to be given back records from here.
func (p *Phone) Left(log string) (unsent int, heals bool) {
	l, held := p.logs[log]
	if !held {
		return 0, false
	}
	heals = l.meta.Phase != following && (!l.loaded || len(l.unhealed()) > 0)
	return len(p.Unsent(log)), heals
}

// Remove takes a log off the phone with everything stored of it, its notes included. While something would be lost it
// is an [ErrUnsent] and nothing is removed, unless lose says that it may be lost.
func (p *Phone) Remove(log string, lose bool) (Step, error) {
	if _, held := p.logs[log]; !held {
		return Step{}, ErrUntracked
	}
	if unsent, heals := p.Left(log); !lose && (unsent > 0 || heals) {
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
