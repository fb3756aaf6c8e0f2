package device

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/sync"
)

// Limits of what the phone waits for the server.
const (
	syncLimit = 8 * time.Second
	meEvery   = 60 * 1000 // ms between asking who we are, unless woken
)

// taken is an answer of the server, on its way into the one goroutine that may touch the phone.
type taken struct {
	log    string // "" for who we are
	req    sync.Request
	answer Answer
}

// exchange starts every exchange that is due: first who we are, then the job on the screen, then the others.
func (c *Core) exchange() {
	if c.adrift && c.load() != nil {
		return
	}
	now := c.Now()
	if c.askedMe == 0 || now-c.askedMe > meEvery {
		c.askMe(now)
	}
	if c.me.Role == "" {
		return
	}
	for _, log := range c.logsInOrder() {
		if c.mine(log) {
			c.exchangeLog(log, now)
		}
	}
	c.setAlarm(now)
}

// tidy takes off the phone what nobody here may see any more, once everything in it was handed in: jobs whose link is
// closed, and what an earlier owner or helper had on this phone. What is not handed in stays, unseen. It reports whether
// anything went; where the storage refuses it is tried again next time.
func (c *Core) tidy() bool {
	if c.adrift || c.me.Role == "" {
		return false
	}
	gone := false
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		if c.asking[log] || s.Waiting+s.Parked > 0 || s.Closed == "" && c.mine(log) {
			continue
		}
		gone = c.forget(log) || gone
	}
	return gone
}

// forget drops a log, unless something in it was not handed in.
func (c *Core) forget(log string) bool {
	if c.loadLog(log) != nil {
		return false
	}
	dropped := false
	err := c.do(func() (sync.Step, []Entry, error) {
		step, err := c.phone.Forget(log)
		dropped = err == nil
		if err != nil {
			return sync.Step{}, nil, nil
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

// jobHere is the id of the job on the screen, "" if there is none.
func (c *Core) jobHere() string {
	rest, inJob := strings.CutPrefix(c.here, "/jobs/")
	if !inJob {
		return ""
	}
	id, _, _ := strings.Cut(rest, "/")
	id, _, _ = strings.Cut(id, "?")
	return id
}

func (c *Core) askMe(now int64) {
	if c.asking["me"] {
		return
	}
	c.asking["me"] = true
	c.askedMe = now
	c.Go(func() {
		answer := c.Wire.Fetch("GET", "/api/v1/me", "", syncLimit)
		c.taken <- taken{answer: answer}
	})
}

// exchangeLog posts what waits on a log, if it is due and nothing is under way.
func (c *Core) exchangeLog(log string, now int64) {
	s := c.phone.Status(log)
	if c.asking[log] || s.NextTry > now || !c.phone.Behind(log) && !c.stale(log) {
		return
	}
	ask := c.phone.Request
	if c.isAside(log) {
		ask = c.phone.HandIn
	} else if c.loadLog(log) != nil {
		return
	}
	req, due := ask(log, now)
	if !due {
		return
	}
	body, err := json.Marshal(req)
	if err != nil {
		return
	}
	c.asking[log] = true
	delete(c.news, log)
	c.Go(func() {
		answer := c.Wire.Fetch("POST", syncPath(log), string(body), syncLimit)
		c.taken <- taken{log, req, answer}
	})
}

func syncPath(log string) string {
	if id, own := strings.CutSuffix(log, sync.OwnSuffix); own {
		return "/api/v1/jobs/" + id + "/own/sync"
	}
	return "/api/v1/jobs/" + log + "/sync"
}

// stale reports whether a log should be looked at although nothing waits: there is news, or it was never pulled.
func (c *Core) stale(log string) bool { return c.news[log] || c.phone.Status(log).Shared == 0 }

// wantNews makes the logs of a job, or of all jobs for "", look for news at the next exchange.
func (c *Core) wantNews(id string) {
	for _, log := range c.phone.Logs() {
		if id == "" || strings.TrimSuffix(log, sync.OwnSuffix) == id {
			c.news[log] = true
		}
	}
}

// setAlarm rings when the next retry is due.
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
		case c.nudges <- struct{}{}:
		default: // it rings already
		}
	})
}

// took takes in an answer of the server. It gives what on the screen may look different now.
func (c *Core) took(t taken) due {
	first := !c.heard
	c.heard = true
	if t.log == "" {
		delete(c.asking, "me")
		c.metServer(t.answer.Status)
		if c.tookMe(t.answer) || first {
			return duePage
		}
		return c.due
	}
	delete(c.asking, t.log)
	if !c.isAside(t.log) {
		defer c.working(t.log)()
	}
	now := c.Now()
	if t.answer.Status != 200 {
		c.news[t.log] = true // it was not heard
		c.failed(t, now)
		return duePage
	}
	resp, err := sync.DecodeResponse([]byte(t.answer.Text))
	if c.unread[jobOf(t.log)] = err != nil; err != nil {
		c.online, c.news[t.log] = true, true
		c.phone.Failed(t.log, now, "The server's answer could not be read ("+err.Error()+").", 0)
		return duePage
	}
	c.online, c.trouble = true, ""
	if len(t.req.Ops) > 0 { // the server has just saved them
		c.full = false
	}
	if c.isAside(t.log) {
		return c.handedIn(t, resp, now)
	}
	if c.loadLog(t.log) != nil {
		return c.due
	}
	c.describe(t.log, t.req, resp)
	var refused error
	recovering, notes := c.phone.Status(t.log).Recovering, len(c.phone.Notes())
	err = c.do(func() (sync.Step, []Entry, error) {
		if err := c.loadLog(t.log); err != nil {
			return sync.Step{}, nil, err
		}
		step, err := c.phone.Receive(t.log, t.req, resp, now)
		if refused = err; err != nil {
			return sync.Step{}, nil, nil
		}
		return step, nil, nil
	})
	switch {
	case refused != nil:
		c.unread[jobOf(t.log)] = true
		c.phone.Failed(t.log, now, refused.Error(), 0)
		return duePage
	case err != nil:
		c.phone.Failed(t.log, now, "This phone's storage refuses: "+err.Error(), 0)
		return duePage
	}
	if recovering || c.phone.Status(t.log).Recovering || movesDesign(t.req, resp) {
		c.designChanged(t.log)
	}
	if first || recovering || len(c.phone.Notes()) != notes || !nothingNew(t.req, resp) || strings.Contains(c.here, "/history") {
		return duePage
	}
	return max(c.due, dueState)
}

// nothingNew reports whether an answer brings only what was sent, taken as it was shown.
func nothingNew(req sync.Request, resp sync.Response) bool {
	taken := 0
	for _, a := range resp.Acks {
		if a.Result == sync.OK || a.Result == sync.Duplicate {
			taken++
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
	return taken == len(req.Ops) && resp.Closed == "" && !resp.Rewound && !resp.Open
}

// movesDesign reports whether an answer may change what is planned: by records that came, or by operations that were
// shown as done and were not taken.
func movesDesign(req sync.Request, resp sync.Response) bool {
	for _, rec := range resp.Recs {
		if !progressOnly(rec.Entity) {
			return true
		}
	}
	taken := map[string]bool{}
	for _, a := range resp.Acks {
		taken[a.ID] = a.Result == sync.OK || a.Result == sync.Duplicate
	}
	for _, op := range req.Ops {
		if !progressOnly(op.Entity) && !taken[op.ID] {
			return true
		}
	}
	return false
}

// failed notes an exchange that came to nothing, in a person's words.
func (c *Core) failed(t taken, now int64) {
	reason := ""
	switch t.answer.Status {
	case 0:
		c.online = false
		reason = "No answer from the server."
	case 401:
		reason = "This phone is not let in any more. Open your link again."
	case 409: // nothing was taken
		c.askedMe = 0
		reason = "This phone was let in under another link."
	case 507:
		c.full = true
		reason = "The server’s disk is full. All is kept on this phone."
	case 426:
		reason = "This app and the server are of different versions. Update."
	case 429:
		reason = "The server is busy."
	default:
		reason = "The server answered " + strconv.Itoa(t.answer.Status) + "."
	}
	c.trouble = reason
	pause, _ := strconv.ParseInt(t.answer.RetryAfter, 10, 64)
	c.phone.Failed(t.log, now, reason, pause*1000)
}

// tookMe takes in who the server says we are, and begins to hold the jobs it names.
func (c *Core) tookMe(a Answer) bool {
	before := c.status()
	switch a.Status {
	case 200:
	case 0:
		c.online = false
		return before.Online
	case 401:
		c.online = true
		c.trouble = "This phone is not let in any more. Open your link again."
		return true
	default:
		return false
	}
	c.online, c.trouble = true, ""
	var told me
	if job.ScanJSON([]byte(a.Text), job.MaxDepth) != nil || json.Unmarshal([]byte(a.Text), &told) != nil || told.Role == "" {
		return false
	}
	if told.Closed == "" || c.me.Role == "" || c.me.other(told) { // of a closed link the jobs are not named any more; they stay known
		if c.saveMe(told, a.Text) != nil {
			return true
		}
	}
	c.me.Closed = told.Closed
	c.full = told.Full
	c.held, c.crowded = map[string]int{}, map[string]bool{}
	for _, j := range told.Jobs {
		c.held[j.ID], c.crowded[j.ID] = j.Held, j.Crowded
		if c.track(j.ID) != nil {
			return true
		}
	}
	return true
}

// other reports whether the server now takes this phone's person for somebody else.
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
	err := c.do(func() (sync.Step, []Entry, error) {
		step, err := c.phone.SetAuthor(job.Author{Role: told.Role, Name: told.Name, Link: told.Link})
		return step, []Entry{{keyMe, text}}, err
	})
	if err == nil {
		c.me = told
		c.phone.Wake() // what was refused to somebody else may be asked for at once
	}
	return err
}

// track begins to hold a job's logs.
func (c *Core) track(id string) error {
	logs := []string{id}
	if c.me.Role == job.Owner {
		logs = append(logs, id+sync.OwnSuffix)
	}
	for _, log := range logs {
		if err := c.do(func() (sync.Step, []Entry, error) {
			if c.removed(id) {
				return sync.Step{}, nil, nil
			}
			step, err := c.phone.Track(log)
			return step, nil, err
		}); err != nil {
			return err
		}
	}
	return nil
}

func formatMS(ms int64) string { return strconv.FormatInt(ms, 10) }
