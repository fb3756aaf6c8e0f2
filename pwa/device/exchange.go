package device

import (
	"encoding/json"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

const (
	syncLimit = 8 * time.Second // for one request
	meEvery   = 60 * 1000       // ms between asking who we are, unless woken
)

// exchange starts the requests that are due: who we are, then the job on the screen, then the others.
func (c *Core) exchange() {
	if c.mustReload && c.load() != nil {
		return
	}
	now := c.Now()
	if c.askedMe == 0 || now-c.askedMe > meEvery {
		c.askMe(now)
	}
	if c.me.Role == "" {
		return
	}
	c.beginRequest(now)
	c.setAlarm(now)
}

// tidy removes one log that this person may not see and that has nothing left to send: its link is closed, or it
// belongs to an earlier user of this phone. It reports whether it removed one. If the storage refuses, the next turn
// tries again.
func (c *Core) tidy() bool {
	if c.mustReload || c.me.Role == "" {
		return false
	}
	if c.tidyDeleted() {
		return true
	}
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		if c.inFlight[log] || s.Waiting+s.Parked > 0 || s.Closed == "" && c.mine(log) {
			continue
		}
		if c.forget(log) {
			return true
		}
	}
	return false
}

// forget removes a log, unless some of it is unsent.
func (c *Core) forget(log string) bool {
	if c.phone.Status(log).Recovering && c.loadLog(log) != nil {
		return false
	}
	dropped := false
	err := c.do(func() (phone.Step, []Entry, error) {
		step, err := c.phone.Forget(log)
		dropped = err == nil
		if err != nil {
			return phone.Step{}, nil, nil
		}
		return step, nil, nil
	})
	return err == nil && dropped
}

// logsInOrder lists the logs with those of the job on the screen first.
func (c *Core) logsInOrder() []string {
	current := c.jobHere()
	var first, rest []string
	for _, log := range c.phone.Logs() {
		if current != "" && strings.TrimSuffix(log, sync.OwnSuffix) == current {
			first = append(first, log)
		} else {
			rest = append(rest, log)
		}
	}
	return append(first, rest...)
}

// jobHere returns the id of the job on the screen, "" if there is none.
func (c *Core) jobHere() string {
	path, _, _ := split(c.current)
	return address.JobOf(path)
}

func (c *Core) askMe(now int64) {
	if c.inFlight["me"] {
		return
	}
	c.inFlight["me"] = true
	c.askedMe = now
	c.Go(func() {
		answer := c.Wire.Fetch("GET", address.Me.Path(), "", syncLimit)
		c.received <- received{answer: answer}
	})
}

func syncPath(log string) string {
	if id, own := strings.CutSuffix(log, sync.OwnSuffix); own {
		return address.SyncOwn.Path(id)
	}
	return address.Sync.Path(log)
}

// stale reports whether a log should be pulled although nothing waits: there is news, or it was never pulled.
func (c *Core) stale(log string) bool { return c.news[log] || c.phone.Status(log).Shared == 0 }

// wantNews makes the logs of a job, or of all jobs for "", due at the next exchange.
func (c *Core) wantNews(id string) {
	for _, log := range c.phone.Logs() {
		if id == "" || strings.TrimSuffix(log, sync.OwnSuffix) == id {
			c.news[log] = true
		}
	}
}

// setAlarm sets the alarm for the next retry.
func (c *Core) setAlarm(now int64) {
	next := int64(0)
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		if s.NextTry > now && c.mine(log) && (c.phone.Behind(log) || c.stale(log)) && (next == 0 || s.NextTry < next) {
			next = s.NextTry
		}
	}
	if next == 0 || c.alarm > now && c.alarm <= next {
		return
	}
	c.alarm = next
	c.Later(next-now, func() {
		select {
		case c.alarms <- struct{}{}:
		default: // it rings already
		}
	})
}

// nothingNew reports whether an answer only acknowledges what was sent.
func nothingNew(req sync.Request, resp sync.Response) bool {
	accepted := 0
	for _, a := range resp.Acks {
		if a.Result == sync.OK || a.Result == sync.Duplicate {
			accepted++
		}
	}
	sent := map[string]bool{}
	for _, op := range req.Ops {
		sent[op.ID] = true
	}
	for _, rec := range resp.Recs {
		if !sent[rec.ID] {
			return false
		}
	}
	return accepted == len(req.Ops) && resp.Closed == "" && !resp.Rewound && !resp.Open
}

// movesDesign reports whether an answer may change the plan: by new records, or by refused operations.
func movesDesign(req sync.Request, resp sync.Response) bool {
	for _, rec := range resp.Recs {
		if !job.IsProgress(rec.Entity) {
			return true
		}
	}
	accepted := map[string]bool{}
	for _, a := range resp.Acks {
		accepted[a.ID] = a.Result == sync.OK || a.Result == sync.Duplicate
	}
	for _, op := range req.Ops {
		if !job.IsProgress(op.Entity) && !accepted[op.ID] {
			return true
		}
	}
	return false
}

// failed notes that a request for logs failed, with a reason for people.
func (c *Core) failed(logs []string, answer Answer, now int64) {
	reason := ""
	c.outage = c.outage || answer.Status == 0 || answer.Status >= 500
	switch answer.Status {
	case 0:
		c.online = false
		reason = view.LabelNoAnswer
	case 401:
		reason = view.LabelLostAccess
	case 410:
		reason = view.LabelJobGone
	case 409: // nothing was accepted
		c.askedMe = 0
		reason = "This phone got its access from another link."
	case 507:
		c.serverFull = true
		reason = "The server’s disk is full. All is kept on this phone."
	case 426:
		reason = "The app and the server have different versions. Update."
	case 429:
		reason = view.LabelServerBusy
	default:
		reason = view.LabelServerSays + strconv.Itoa(answer.Status) + "."
	}
	c.trouble = reason
	pause, _ := strconv.ParseInt(answer.RetryAfter, 10, 64)
	counted := slices.DeleteFunc(slices.Clone(logs), func(log string) bool {
		return c.wasOvertaken(log) && answer.Status == 0
	})
	if len(counted) > 0 {
		c.phone.FailedTogether(counted, now, reason, pause*1000)
	}
}

// retryAtOnce ends all pauses between tries, also of what is under way now and may fail yet.
func (c *Core) retryAtOnce() {
	c.phone.Wake()
	c.overtaken = maps.Clone(c.inFlight)
}

// wasOvertaken reports, once, whether the request was under way at the last wake.
func (c *Core) wasOvertaken(request string) bool {
	was := c.overtaken[request]
	delete(c.overtaken, request)
	return was
}

// onMe handles the answer to who we are, and tracks the jobs in it. It reports whether to redraw the page.
func (c *Core) onMe(a Answer) bool {
	before := c.status()
	switch a.Status {
	case 200:
	case 0:
		c.online, c.outage = false, true
		return before.Online
	case 401:
		c.online = true
		c.trouble = view.LabelLostAccess
		return true
	default:
		c.outage = c.outage || a.Status >= 500
		return false
	}
	c.online, c.outage, c.trouble = true, false, ""
	var told me
	if job.ScanJSON([]byte(a.Text), job.MaxDepth) != nil || json.Unmarshal([]byte(a.Text), &told) != nil ||
		told.Role == "" {
		return false
	}
	// The answer for a closed link names no jobs, so keep those we know.
	if told.Closed == "" || c.me.Role == "" || c.me.other(told) {
		if c.saveMe(told, a.Text) != nil {
			return true
		}
	}
	c.me.Closed = told.Closed
	c.serverFull = told.Full
	c.heldBack, c.crowded = map[string]int{}, map[string]bool{}
	c.onDeleted(told)
	for _, j := range told.Jobs {
		c.heldBack[j.ID], c.crowded[j.ID] = j.Held, j.Crowded
	}
	switch {
	case told.Closed != "":
		c.resubmitLate(told)
	case c.track(told.Jobs) == nil:
		c.compare(told, c.Now())
	}
	return true
}

// other reports whether the server now says this phone belongs to another person.
func (m me) other(told me) bool {
	return m.Role != told.Role || m.Name != told.Name || m.Link != told.Link
}

// sameJobs reports whether both name the same jobs, in the same order.
func (m me) sameJobs(told me) bool {
	return slices.EqualFunc(m.Jobs, told.Jobs, func(a, b meJob) bool { return a.ID == b.ID })
}

// saveMe stores who we are, if that has changed.
func (c *Core) saveMe(told me, text string) error {
	if !c.me.other(told) && c.me.Last == told.Last && (told.Role == job.Owner || c.me.sameJobs(told)) {
		return nil
	}
	err := c.do(func() (phone.Step, []Entry, error) {
		step, err := c.phone.SetAuthor(job.Author{Role: told.Role, Name: told.Name, Link: told.Link})
		return step, []Entry{{keyMe, text}}, err
	})
	if err == nil {
		c.me = told
		c.phone.Wake() // retry at once what was refused to somebody else
	}
	return err
}

// track tracks the logs of jobs, except those removed from this phone.
func (c *Core) track(jobs []meJob) error {
	return c.do(func() (phone.Step, []Entry, error) {
		var logs []string
		for _, j := range jobs {
			if c.removed(j.ID) {
				continue
			}
			logs = append(logs, j.ID)
			if c.me.Role == job.Owner {
				logs = append(logs, j.ID+sync.OwnSuffix)
			}
		}
		step, err := c.phone.Track(logs...)
		return step, nil, err
	})
}

func formatMS(ms int64) string { return strconv.FormatInt(ms, 10) }
