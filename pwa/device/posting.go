package device

import (
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"

	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// posting is a request being assembled, one log at a time, so that user actions can be handled in between.
type posting struct {
	left    []string // logs still to be added
	logs    []string
	reqs    []sync.Request
	texts   []json.RawMessage // the requests as they are written
	bytes   int
	written int // requests with operations
}

// Most requests for logs at once. There are more if the server takes one log in a request.
const (
	maxBatches  = 2
	maxOneByOne = 6
)

// received is an answer of the server on its way to the core's goroutine.
type received struct {
	logs   []string // empty for the answer to who we are
	reqs   []sync.Request
	answer Answer
}

// logAnswer is the answer for one log, waiting to be applied.
type logAnswer struct {
	log    string
	req    sync.Request
	answer Answer
}

// beginRequest starts a request for the logs that are due.
func (c *Core) beginRequest(now int64) {
	most := maxBatches
	if c.oneByOne {
		most = maxOneByOne
	}
	if c.posting != nil || c.requests >= most {
		return
	}
	var logs []string
	for _, log := range c.logsInOrder() {
		if c.mine(log) && c.isDue(log, now) {
			logs = append(logs, log)
		}
	}
	if len(logs) == 0 {
		return
	}
	c.posting = &posting{left: logs}
	for _, log := range logs {
		c.inFlight[log] = true
	}
}

// isDue reports whether a log should be exchanged now: something waits or there is news, no retry pause runs, and no
// exchange of it is under way.
func (c *Core) isDue(log string, now int64) bool {
	if (c.isAside(log) || c.isDeleted(log)) && c.phone.Status(log).Waiting == 0 {
		return false
	}
	return !c.inFlight[log] && c.phone.Status(log).NextTry <= now && (c.phone.Behind(log) || c.stale(log))
}

// assemble adds the next log to the request. It sends the request when it is full or no log is left.
func (c *Core) assemble() {
	p := c.posting
	switch {
	case c.mustReload: // load before sending
		c.releaseLogs(append(p.logs, p.left...))
		c.posting = nil
		return
	case len(p.left) > 0 && c.addLog(p, p.left[0]):
		p.left = p.left[1:]
		if len(p.left) > 1 {
			c.Pause()
		}
		if len(p.left) > 0 && !c.oneByOne {
			return
		}
	}
	c.posting = nil
	c.releaseLogs(p.left) // the next request takes them
	c.send(p)
}

func (c *Core) releaseLogs(logs []string) {
	for _, log := range logs {
		delete(c.inFlight, log)
	}
}

// addLog adds the request for one log. It reports false if the request has no room for it.
func (c *Core) addLog(p *posting, log string) bool {
	now, request := c.Now(), c.phone.Request
	if c.isAside(log) {
		request = c.phone.RequestUnloaded
	} else if c.phone.MustLoad(log) {
		if err := c.loadLog(log); err != nil {
			c.releaseLogs([]string{log})
			c.phone.Failed(log, now, view.LabelStorageRefuses+err.Error(), 0)
			return true
		}
	}
	req, due := request(log, now)
	text, err := json.Marshal(req)
	if !due || err != nil { // nothing to exchange
		c.releaseLogs([]string{log})
		delete(c.news, log)
		if c.isDue(log, now) {
			c.phone.Failed(log, now, "", 0)
		}
		return true
	}
	if len(p.logs) > 0 &&
		(p.bytes+len(text) > sync.MaxBytes || len(p.logs) == sync.MaxLogs || req.Writes() && p.written == sync.MaxWritten) {
		return false
	}
	p.logs, p.reqs, p.texts = append(p.logs, log), append(p.reqs, req), append(p.texts, text)
	p.bytes += len(text)
	if req.Writes() {
		p.written++
	}
	return true
}

// send posts the request. A single log goes to its own address, which servers of every build have.
func (c *Core) send(p *posting) {
	if len(p.logs) == 0 {
		return
	}
	path, body := syncPath(p.logs[0]), []byte(p.texts[0])
	if len(p.logs) > 1 {
		batch := sync.Batch{V: sync.WireVersion}
		for i, log := range p.logs {
			batch.Logs = append(batch.Logs, sync.LogRequest{Log: log, Request: p.texts[i]})
		}
		text, err := json.Marshal(batch)
		if err != nil { // cannot happen: the texts were just written
			c.releaseLogs(p.logs)
			return
		}
		path, body = address.SyncAll.Path(), text
	}
	for _, log := range p.logs {
		delete(c.news, log)
	}
	c.requests++
	c.Go(func() {
		answer := c.Wire.Fetch("POST", path, string(body), syncLimit)
		c.received <- received{p.logs, p.reqs, answer}
	})
}

// onPulled handles an answer of the server and returns what must be redrawn. Answers for logs are applied later, one
// log at a time.
func (c *Core) onPulled(t received) redraw {
	first := !c.answeredOnce
	c.answeredOnce = true
	if len(t.logs) == 0 {
		delete(c.inFlight, "me")
		if c.wasOvertaken("me") && t.answer.Status == 0 {
			c.askedMe = 0
		} else {
			c.metServer(t.answer.Status)
		}
		if c.onMe(t.answer) || first {
			return redrawPage
		}
		return c.pending
	}
	c.requests--
	switch status := t.answer.Status; {
	case len(t.logs) == 1:
		c.answers = append(c.answers, logAnswer{t.logs[0], t.reqs[0], t.answer})
	case status == 400 || status == 404 || status == 405 || status == 413: // an earlier build, or one bad log
		c.oneByOne = true
		c.requestAgain(t.logs)
	case status != 200:
		c.requestAgain(t.logs)
		c.failed(t.logs, t.answer, c.Now())
		return redrawPage
	case !c.splitAnswer(t): // one log may be bad: send each alone to find it
		c.oneByOne = true
		c.requestAgain(t.logs)
		c.phone.FailedTogether(t.logs, c.Now(), unreadable, 0)
		return redrawPage
	}
	if first {
		return redrawPage
	}
	return c.pending
}

const unreadable = "The server's answer could not be read."

// requestAgain makes logs due again after a failed request.
func (c *Core) requestAgain(logs []string) {
	c.releaseLogs(logs)
	for _, log := range logs {
		c.news[log] = true
	}
}

// splitAnswer splits an answer for several logs. It reports false if it answers none of them. Logs that it leaves out
// are asked for again.
func (c *Core) splitAnswer(t received) bool {
	answer, err := sync.DecodeBatchAnswer([]byte(t.answer.Text))
	if err != nil {
		return false
	}
	left := slices.Clone(t.logs)
	for _, a := range answer.Logs {
		at := slices.Index(left, a.Log)
		if at < 0 {
			continue
		}
		after := ""
		if a.After > 0 {
			after = strconv.Itoa(a.After)
		}
		c.answers = append(c.answers,
			logAnswer{a.Log, t.reqs[at], Answer{Status: a.Status, Text: string(a.Response), RetryAfter: after}})
		left[at] = ""
	}
	left = slices.DeleteFunc(left, func(log string) bool { return log == "" })
	if len(left) == len(t.logs) {
		return false
	}
	c.requestAgain(left)
	return true
}

// onScreen reports whether the page on the screen shows something of the log.
func (c *Core) onScreen(log string) bool {
	here := c.jobHere()
	return here == "" || here == strings.TrimSuffix(log, sync.OwnSuffix)
}

// receiveNext applies the next answer for a log.
func (c *Core) receiveNext() {
	a := c.answers[0]
	c.answers = c.answers[1:]
	delete(c.inFlight, a.log)
	what := c.receiveLog(a)
	delete(c.overtaken, a.log)
	if what == redrawPage && !c.onScreen(a.log) && !c.onHistory() {
		what = redrawState
	}
	c.pending = max(c.pending, what)
	if len(c.answers) > 1 {
		c.Pause()
	}
}

// onHistory reports whether a page of what was done is on the screen.
func (c *Core) onHistory() bool {
	path, _, _ := split(c.current)
	at, _ := address.Parse(path)
	return at.Page == address.History
}

// receiveLog applies the answer for one log. It returns what must be redrawn of a page that shows the log.
func (c *Core) receiveLog(a logAnswer) redraw {
	if !c.isAside(a.log) {
		defer c.working(a.log)()
	}
	now := c.Now()
	if a.answer.Status != 200 {
		c.news[a.log] = true // try again
		c.failed([]string{a.log}, a.answer, now)
		return redrawPage
	}
	resp, err := sync.DecodeResponse([]byte(a.answer.Text))
	if c.unread[jobOf(a.log)] = err != nil; err != nil {
		c.online, c.news[a.log] = true, true
		c.phone.Failed(a.log, now, "The server's answer could not be read ("+err.Error()+").", 0)
		return redrawPage
	}
	c.onAnswer()
	if len(a.req.Ops) > 0 { // the server has just stored them
		c.serverFull = false
	}
	if c.isAside(a.log) {
		delete(c.differs, a.log)
		return c.receiveAside(a, resp, now)
	}
	c.describe(a.log, a.req, resp)
	recovering, notes := c.phone.Status(a.log).Recovering, len(c.phone.Notes())
	refused, err := c.apply(a, resp, now)
	switch {
	case refused != nil:
		c.unread[jobOf(a.log)] = true
		c.phone.Failed(a.log, now, refused.Error(), 0)
		return redrawPage
	case err != nil:
		c.phone.Failed(a.log, now, view.LabelStorageRefuses+err.Error(), 0)
		return redrawPage
	}
	if resp.Rewound && !c.differs[a.log] { // other logs may need recovery too
		c.askedMe = 0
	}
	delete(c.differs, a.log)
	if recovering || c.phone.Status(a.log).Recovering || movesDesign(a.req, resp) {
		c.designChanged(a.log)
	}
	if recovering || len(c.phone.Notes()) != notes || !nothingNew(a.req, resp) || c.onHistory() {
		return redrawPage
	}
	return redrawState
}

// apply stores an answer. Refused says why the phone does not accept it; err is an error of the storage.
func (c *Core) apply(a logAnswer, resp sync.Response, now int64) (refused, err error) {
	err = c.do(func() (phone.Step, []Entry, error) {
		step, err := c.phone.Receive(a.log, a.req, resp, now)
		if errors.Is(err, phone.ErrNotLoaded) {
			if err := c.loadLog(a.log); err != nil {
				return phone.Step{}, nil, err
			}
			step, err = c.phone.Receive(a.log, a.req, resp, now)
		}
		if refused = err; err != nil {
			return phone.Step{}, nil, nil
		}
		return step, nil, nil
	})
	return refused, err
}

// onAnswer notes that the server answers. After an outage it asks for the ends of all logs, since the server may have
// been restored.
func (c *Core) onAnswer() {
	c.online, c.trouble = true, ""
	if c.outage {
		c.outage, c.askedMe = false, 0
	}
}

// lookForNews makes the job on the screen due. Outside of a job, or when the page has just become visible, it asks the
// server for the ends of all logs.
func (c *Core) lookForNews() {
	here := c.jobHere()
	if here != "" {
		c.wantNews(here)
	}
	if here == "" || c.justWoken {
		c.askedMe, c.justWoken = 0, true
	}
}

// compare compares the ends of the server's logs with those here. Logs that differ are exchanged at once, whatever is
// on the screen.
func (c *Core) compare(told me, now int64) {
	ends := map[string]sync.Cursor{}
	for _, j := range told.Jobs {
		ends[j.ID] = sync.Cursor{Epoch: j.Epoch, Seq: j.Seq, Hash: j.Hash}
		ends[j.ID+sync.OwnSuffix] = sync.Cursor{Epoch: j.OwnEpoch, Seq: j.OwnSeq, Hash: j.OwnHash}
	}
	for _, log := range c.phone.Logs() {
		if !c.mine(log) || c.inFlight[log] || c.isAside(log) { // a newer answer is under way
			continue
		}
		end, named := ends[log]
		switch {
		case named && (end.Epoch == "" || end.Hash == "" && end.Seq > 0): // a server of an earlier build
			if c.justWoken || end.Epoch != "" && end.Seq != c.phone.Status(log).Seq {
				c.news[log] = true
			}
		case named && c.phone.Agrees(log, end, now):
			delete(c.differs, log)
		default: // the server has more, or less, or another history, or no such job
			c.news[log], c.differs[log] = true, true
		}
	}
	c.justWoken = false
}

// resubmitLate submits late work again if the server lost it, because it was restored from a backup.
func (c *Core) resubmitLate(told me) {
	if told.Handed == nil { // a server of an earlier build
		return
	}
	for _, log := range c.phone.HandedLogs() {
		if !c.mine(log) || c.inFlight[log] {
			continue
		}
		handed := sync.HandedLog{Log: log}
		for _, h := range told.Handed {
			if h.Log == log || h.Log == "" && len(c.me.Jobs) == 1 && c.me.Jobs[0].ID == log {
				handed = sync.HandedLog{Log: log, Epoch: h.Epoch, Seq: h.Seq, Hash: h.Hash, Held: h.Held}
			}
		}
		_ = c.do(func() (phone.Step, []Entry, error) { // on an error the next answer of the server tries again
			step, err := c.phone.SendAgain(handed, told.Closed)
			return step, nil, err
		})
	}
}

// behind counts the jobs whose logs are known to differ from the server's, or are being recovered there.
func (c *Core) behind() int {
	jobs := map[string]bool{}
	for _, log := range c.phone.Logs() {
		s := c.phone.Status(log)
		if c.mine(log) && !c.isAside(log) && s.Closed == "" && (c.differs[log] || s.Recovering || s.Seq < s.Head) {
			jobs[strings.TrimSuffix(log, sync.OwnSuffix)] = true
		}
	}
	return len(jobs)
}

// prepare reads one more job for a page that lists jobs, so that taps are handled in between. It reports whether it
// read one.
func (c *Core) prepare() bool {
	path, _, _ := split(c.current)
	if !listsJobs(path) {
		return false
	}
	for _, id := range c.jobIDs() {
		if c.isAside(id) || len(c.phone.Wants(id)) == 0 {
			continue
		}
		if j, there := c.job(id); there {
			c.plan(j)
		}
		c.Pause()
		return len(c.phone.Wants(id)) == 0
	}
	return false
}
