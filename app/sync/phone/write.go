package phone

import (
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Write makes operations of changes and lays them into the outbox and over the view. The changes are all made or none;
// an error is a [*job.FieldError] where a value may not stand. Once the step is written they are saved.
func (p *Phone) Write(log string, changes ...job.Change) ([]job.Op, Step, error) {
	l, held := p.logs[log]
	if !held {
		return nil, Step{}, ErrUntracked
	}
	if l.view == nil {
		return nil, Step{}, ErrNotLoaded
	}
	for _, c := range changes {
		if err := job.CheckChange(c); err != nil {
			return nil, Step{}, err
		}
		if job.Private(c.Entity) != strings.HasSuffix(log, sync.OwnSuffix) {
			return nil, Step{}, fmt.Errorf("%s belongs into the job's other log: %w", c.Entity, job.ErrInvalid)
		}
	}
	var w writing
	// a server put back by hand would not remember what waits in quarantine: hand in all of it again
	if l.meta.Closed != "" {
		l.unsettle(&w)
	}
	ops := make([]job.Op, len(changes))
	for i, c := range changes {
		ops[i] = p.writer.Write(l.view, c)
		p.enqueue(&w, l, ops[i], p.author)
	}
	step, err := p.finish(&w)
	return ops, step, err
}

// enqueue lays an operation into the outbox, unless one of its name is there: a form that comes again names its
// operations as before.
func (p *Phone) enqueue(w *writing, l *phoneLog, op job.Op, by job.Author) {
	for _, row := range l.out {
		if row.Op.ID == op.ID {
			return
		}
	}
	row := &outRow{Op: op, order: p.nextOrder()}
	if by.Role == job.Owner {
		row.By = &by
	}
	l.out = append(l.out, row)
	w.put(keyOut(l.id, row.order), row)
	if l.view != nil {
		l.view.Apply(row.pending(p.author))
	}
}

// Adopt takes operations into the outbox that were made on this phone and reached another net than its storage, such as
// a journal. Those it holds already are left out; the server sorts out the rest by id.
func (p *Phone) Adopt(log string, ops ...job.Op) (Step, error) {
	return p.AdoptAs(log, p.author, ops...)
}

// AdoptAs is [Phone.Adopt] for operations that somebody else may have made on this phone: those of the owner wait until
// the owner is let in here again.
func (p *Phone) AdoptAs(log string, by job.Author, ops ...job.Op) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	have := map[string]bool{}
	for _, row := range l.out {
		have[row.Op.ID] = true
	}
	var w writing
	for _, op := range ops {
		if have[op.ID] || op.Check() != nil {
			continue
		}
		have[op.ID] = true
		p.writer.Number = max(p.writer.Number, op.Number)
		p.enqueue(&w, l, op, by)
	}
	if len(w.step.Put) == 0 {
		return Step{}, nil
	}
	p.sortOut(&w, l)
	return p.finish(&w)
}

// Unsent lists the operations of a log that the server has not acknowledged, in the order made: for an export.
func (p *Phone) Unsent(log string) []job.Op {
	l, held := p.logs[log]
	if !held {
		return nil
	}
	var ops []job.Op
	for _, row := range l.out {
		if !row.settled() {
			ops = append(ops, row.Op)
		}
	}
	return ops
}

// fork takes a new device id after another phone was found to use the old one: this phone or that one is a copy. Unsent
// operations move over with their ids and numbers; numbers go on, so none is used twice.
func (p *Phone) fork(w *writing) {
	p.writer.Device = p.options.NewID()
	for _, id := range p.allLogs() {
		l := p.logs[id]
		for _, row := range l.out {
			if !row.settled() {
				row.Op.Device = p.writer.Device
				w.put(keyOut(l.id, row.order), row)
			}
		}
	}
}
