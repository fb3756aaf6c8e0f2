package phone

import (
	"garlandry/app/sync"
)

// A log that would crash the core is not loaded. Its unsent operations are still sent: RequestUnloaded and
// ReceiveUnloaded need only the log's outbox.

// RequestUnloaded returns what to post for a log that is not loaded, at the phone's clock: only its unsent operations.
// The second result is false if there are none. It asks for one record, the fewest that the exchange allows.
func (p *Phone) RequestUnloaded(log string, now int64) (sync.Request, bool) {
	l, held := p.logs[log]
	if !held || l.loaded {
		return sync.Request{}, false
	}
	req := sync.Request{V: sync.WireVersion, App: p.options.App, Device: p.writer.Device, As: sync.Identity(p.author),
		Now: now, Max: 1}
	req.Ops = l.nextOps(p.options.MaxOps, p.author)
	return req, len(req.Ops) > 0
}

// ReceiveUnloaded handles the answer to [Phone.RequestUnloaded]: the result of each operation, and no record. An
// acknowledged operation stays in the outbox, no longer waiting, until the log can be read again and its record comes.
func (p *Phone) ReceiveUnloaded(log string, req sync.Request, resp sync.Response, now int64) (Step, error) {
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
