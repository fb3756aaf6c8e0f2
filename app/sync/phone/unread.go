package phone

import (
	"garlandry/app/sync"
)

// A log that this app cannot read, because its core stops over it, is not loaded. What waits in it is handed in all the
// same: these two need nothing of the log but its outbox.

// HandIn returns what to post for a log that is not loaded, at the phone's clock: what waits, and nothing else. It is
// false if nothing does. No record is wanted, as near as the exchange lets one say so.
func (p *Phone) HandIn(log string, now int64) (sync.Request, bool) {
	l, held := p.logs[log]
	if !held || l.loaded {
		return sync.Request{}, false
	}
	req := sync.Request{V: sync.WireVersion, App: p.options.App, Device: p.writer.Device, As: sync.Identity(p.author),
		Now: now, Max: 1}
	req.Ops = l.nextOps(p.options.MaxOps, p.author)
	return req, len(req.Ops) > 0
}

// HandedIn takes in the answer to [Phone.HandIn]: what became of each operation, and no record. An operation that the
// server has stays in the outbox, no longer waiting, until its record comes when the log can be read again.
func (p *Phone) HandedIn(log string, req sync.Request, resp sync.Response, now int64) (Step, error) {
	l, held := p.logs[log]
	if !held {
		return Step{}, ErrUntracked
	}
	l.failures, l.next, l.reason = 0, 0, ""
	r := receiving{phone: p, log: l, req: req, resp: resp, now: now, acked: map[*outRow]bool{}}
	r.acks()
	if len(r.w.step.Put)+len(r.w.step.Delete) == 0 {
		return Step{}, nil
	}
	return p.finish(&r.w)
}
