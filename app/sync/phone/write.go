package phone

import (
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Write turns changes into operations, and puts them into the outbox and the view. It makes all of them or none; an
// invalid value gives a [*job.FieldError]. They are saved once the step is written.
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
			return nil, Step{}, fmt.Errorf("%s belongs in the job's other log: %w", c.Entity, job.ErrInvalid)
		}
	}
	var w writing
	// a restored server may have lost what waits in quarantine: send all of it again
	if l.meta.Closed != "" {
		l.markUnsent(&w)
	}
	ops := make([]job.Op, len(changes))
	for i, c := range changes {
		ops[i] = p.writer.Write(l.view, c)
		p.enqueue(&w, l, ops[i], p.author)
	}
	step, err := p.finish(&w)
	return ops, step, err
}

// enqueue adds an operation to the outbox unless its id is there: a form that comes again gives the same ids.
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

// Adopt adds operations that the author made on this phone and that were kept outside its storage, such as in a
// journal. It skips those in the outbox; the server recognises the others by id. The owner's operations wait until the
// owner is let in here again.
func (p *Phone) Adopt(log string, by job.Author, ops ...job.Op) (Step, error) {
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

// Unsent lists the operations of a log that the server has not acknowledged, in the order made.
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

// fork takes a new device id because another phone uses the old one: one of the two is a copy. Unsent operations keep
// their ids and numbers. Numbers go on, and none is used twice.
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
