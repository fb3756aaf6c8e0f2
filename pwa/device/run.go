package device

import (
	"bytes"
	"slices"

	"garlandry/pwa/view"
)

// redraw is how much of the page on the screen must be drawn again.
type redraw int

const (
	redrawNothing redraw = iota
	redrawState          // the state of the phone
	redrawPage           // the whole page
)

// Run is the core's event loop. It ends when the inbox is closed. Only its goroutine touches the core. It handles user
// actions before answers of the server, redraws and background work.
func (c *Core) Run(inbox <-chan Message) {
	for c.turn(inbox) {
	}
	c.forgetWork()
	c.dropTask()
}

// turn handles one event or does one piece of work. It reports whether the inbox is still open.
func (c *Core) turn(inbox <-chan Message) (open bool) {
	open = true
	defer c.recoverTurn()
	c.exchange()
	c.tellShared()
	if c.tidying = c.tidy(); c.tidying {
		c.pending = redrawPage
	}
	if c.continueLeaving(); c.left {
		return false
	}
	var m Message
	select {
	case m, open = <-inbox:
		c.handle(m)
	default:
		open = c.idle(inbox)
	}
	return open
}

// idle runs when the inbox is empty. It handles one more log, or does the pending redraw, or goes on with background
// work, or waits for the next event. It reports whether the inbox is still open.
func (c *Core) idle(inbox <-chan Message) bool {
	switch {
	case c.tidying:
		return true
	case c.posting != nil:
		c.assemble()
		return true
	case len(c.answers) > 0 && (c.pending == redrawNothing || c.onScreen(c.answers[0].log)):
		c.receiveNext()
		return true
	case c.pending != redrawNothing:
		if !c.prepare() {
			c.redraw()
		}
		return true
	}
	busy := c.startWork()
	for busy {
		select {
		case m, open := <-inbox:
			c.handle(m)
			return open
		case t := <-c.received:
			c.pending = c.onPulled(t)
			return true
		case <-c.alarms:
			c.onAlarm()
			return true
		default:
			busy = c.slice()
		}
	}
	if c.pending != redrawNothing {
		return true
	}
	select {
	case m, open := <-inbox:
		c.handle(m)
		return open
	case t := <-c.received:
		c.pending = c.onPulled(t)
	case <-c.alarms:
		c.onAlarm()
	}
	return true
}

func (c *Core) onAlarm() {
	c.alarm = 0
	c.endRest()
}

// handle handles a message of the page.
func (c *Core) handle(m Message) {
	c.unanswered = &m
	switch m.Type {
	case "get":
		c.Page.Draw(c.get(m.Number, m.Path))
	case "offline":
		c.Page.Draw(c.offline(m.Number, m.Path))
	case "post":
		c.Page.Draw(c.post(m))
		c.restAfterTap()
	case "adopt":
		c.adopt(m)
	case "journal":
		c.unposted, c.journalFull = m.Count, m.Full
		c.pending = max(c.pending, redrawState)
	case "browser":
		c.onBrowser(m.Form)
	case "wake":
		c.checkStore()
		c.hidden, c.justWoken, c.oneByOne = false, true, false // the server may be of another build now
		c.retryAtOnce()
		c.lookForNews()
	case "hide":
		c.hidden = true
	case "news":
		c.wantNews(m.Job)
	case "tick":
		c.checkStore()
		c.hidden = false
		c.lookForNews()
		c.pending = redrawPage // "shared 2 min ago" grows older
	case "others":
		if c.load() == nil {
			c.pending = redrawPage
		}
	}
	c.unanswered = nil
}

// redraw does the pending redraw of the page on the screen.
func (c *Core) redraw() {
	what := c.pending
	c.pending = redrawNothing
	path, query, ok := split(c.current)
	if !ok {
		return
	}
	if !c.holds(path) {
		if c.shown == c.current {
			c.shown = ""
			c.Page.Draw(Drawing{Type: "gone", Path: c.current})
		}
		return
	}
	if c.shown != c.current && !c.caughtUp(path) {
		return
	}
	if what == redrawState && c.shown == c.current {
		c.Page.Draw(c.state())
		return
	}
	delete(query, "from")
	c.lost = false
	r := c.page(path, query)
	if r.Body == nil {
		return
	}
	shown, status, forms := c.shown == c.current, c.drawn, c.forms
	d := c.drawing(0, c.current, r)
	switch {
	case shown && (r.Status >= 400 && r.Status != status || !hasAll(r.Forms, forms)): // somebody may be typing into it
		c.lost, c.drawn, c.forms = true, status, forms
		d = c.state()
	case c.messages.form:
		delete(d.Parts, "page")
	}
	c.Page.Draw(d)
}

// hasAll reports whether a page has all of some forms.
func hasAll(page, some []view.FormID) bool {
	return !slices.ContainsFunc(some, func(id view.FormID) bool { return !slices.Contains(page, id) })
}

// state draws only the state of the phone.
func (c *Core) state() Drawing {
	var b bytes.Buffer
	d := Drawing{Type: "drawn", Path: c.current, Parts: map[string]string{}}
	device := c.status()
	d.Waiting = device.Waiting
	if view.StateInside(view.Frame{Device: device, Now: c.Now()}).Render(&b) == nil { // a buffer takes everything
		d.Parts["state"] = b.String()
	}
	return d
}
