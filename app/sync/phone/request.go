package phone

import (
	"encoding/json"

	"garlandry/app/job"
	"garlandry/app/sync"
)

const (
	firstPauseMS = int64(1000)
	longPauseMS  = int64(5 * 60 * 1000)
	seenPauseMS  = int64(30 * 1000)       // while the page is in view
	requestRoom  = sync.MaxBytes - 64<<10 // for operations, leaving room for the rest
)

// Request returns what to post for a log now, at the phone's clock. The second result is false if the log is not held,
// if its link is closed and nothing is left to send, or if it [Phone.MustLoad] first.
func (p *Phone) Request(log string, now int64) (sync.Request, bool) {
	l, held := p.logs[log]
	if !held || p.MustLoad(log) {
		return sync.Request{}, false
	}
	req := sync.Request{V: sync.WireVersion, App: p.options.App, Device: p.writer.Device, As: sync.Identity(p.author),
		Now: now, Cursor: l.expects(), Max: p.options.MaxRecs, Waits: true}
	switch {
	case l.meta.Closed != "": // send what is left, pull nothing
		req.Closed = true
		if req.Heal = l.nextHeal(p.options.MaxHeal); len(req.Heal) == 0 {
			req.Ops = l.nextOps(p.options.MaxOps, p.author)
		}
		return req, len(req.Heal)+len(req.Ops) > 0
	case l.meta.Phase == repulling:
	case l.meta.Phase == healing:
		req.Heal = l.nextHeal(p.options.MaxHeal)
	case !l.awaitsRecords(): // a server restored in between could keep a later operation and lose an earlier one
		req.Ops = l.nextOps(p.options.MaxOps, p.author)
	}
	return req, true
}

// MustLoad reports whether a log must be loaded before a request: to know what a restored server lacks, or to search
// for an acknowledged operation. Other requests need only what is in memory.
func (p *Phone) MustLoad(log string) bool {
	l, held := p.logs[log]
	return held && !l.loaded && (l.meta.Phase != following || l.searching)
}

// awaitsRecords reports whether the server has acknowledged operations whose records have not come yet.
func (l *phoneLog) awaitsRecords() bool {
	for _, row := range l.out {
		if row.Acked {
			return true
		}
	}
	return false
}

func (l *phoneLog) nextOps(most int, by job.Author) []job.Op {
	var ops []job.Op
	room := requestRoom
	for _, row := range l.out {
		if row.settled() || row.parked(by) {
			continue
		}
		if room -= sizeOf(row.Op); len(ops) > 0 && room < 0 || len(ops) == most {
			break
		}
		ops = append(ops, row.Op)
	}
	return ops
}

func (l *phoneLog) nextHeal(most int) []job.Rec {
	var recs []job.Rec
	room := requestRoom
	for _, rec := range l.unhealed() {
		if room -= sizeOf(rec); len(recs) > 0 && room < 0 || len(recs) == most {
			break
		}
		recs = append(recs, rec)
	}
	return recs
}

func sizeOf(value any) int {
	raw, err := json.Marshal(value)
	if err != nil {
		return requestRoom
	}
	return len(raw)
}

// Failed records a failed exchange, with a reason to show, and returns when to try again on the phone's clock. The
// first pause is 1 s; it doubles each time up to 5 minutes, or up to 30 s while the page is in view. A random part of
// up to half is taken off, which spreads phones out. A longer pause that the server asks for is kept, up to 5 minutes.
func (p *Phone) Failed(log string, now int64, reason string, retryAfterMS int64) int64 {
	return p.FailedTogether([]string{log}, now, reason, retryAfterMS)
}

// FailedTogether is [Phone.Failed] for logs that shared one request. They are tried again together.
func (p *Phone) FailedTogether(logs []string, now int64, reason string, retryAfterMS int64) int64 {
	longest := longPauseMS
	if p.options.Watched != nil && p.options.Watched() {
		longest = seenPauseMS
	}
	failures, known := 0, false
	for _, log := range logs {
		if l, held := p.logs[log]; held {
			failures, known = max(failures, l.failures), true
		}
	}
	if !known {
		return now + longPauseMS
	}
	pause := longest
	if failures < 9 {
		pause = min(longest, firstPauseMS<<failures)
	}
	pause -= int64(float64(pause) / 2 * min(max(p.options.Jitter(), 0), 1))
	next := now + max(pause, min(max(retryAfterMS, 0), longPauseMS))
	for _, log := range logs {
		if l, held := p.logs[log]; held {
			l.failures, l.next, l.reason = failures+1, next, reason
		}
	}
	return next
}

// Resume copies the pauses of an earlier Phone over the same storage: reopening is no reason to ask a busy server at
// once.
func (p *Phone) Resume(before *Phone) {
	for id, l := range p.logs {
		if old, held := before.logs[id]; held {
			l.failures, l.next, l.reason, l.agreed = old.failures, old.next, old.reason, old.agreed
		}
	}
}

// Agrees reports whether this phone has read the log to the server's head, as heard outside an exchange. If so, nothing
// needs to be pulled; operations may still wait to be sent.
func (p *Phone) Agrees(log string, head sync.Cursor, now int64) bool {
	l, held := p.logs[log]
	if !held || l.meta.Phase != following || l.meta.Cursor != head {
		return false
	}
	l.agreed = max(l.agreed, now)
	return true
}

// Wake ends the pauses of all logs. Call it when the phone is online or in view again, or somebody tapped.
func (p *Phone) Wake() {
	for _, l := range p.logs {
		l.failures, l.next = 0, 0
	}
}
