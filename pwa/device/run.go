package device

import (
	"bytes"
	"strings"

	"garlandry/pwa/view"
)

// due is what of the page on the screen is to be drawn again, once the person wants nothing.
type due int

const (
	dueNothing due = iota
	dueState       // how the phone stands
	duePage        // all of it
)

// Run answers the page until its inbox is closed. It is the one goroutine that touches the core. What a person does
// comes first: while the page waits for an answer, nothing else is taken in, and nothing is drawn of its own accord.
func (c *Core) Run(inbox <-chan Message) {
	for c.turn(inbox) {
	}
	c.forgetWork()
	c.drop()
}

// turn does the next thing there is to do. It reports whether the inbox is open still.
func (c *Core) turn(inbox <-chan Message) (open bool) {
	open = true
	defer c.survive()
	c.exchange()
	c.tellShared()
	if c.tidying = c.tidy(); c.tidying {
		c.due = duePage
	}
	if c.moveOut(); c.left {
		return false
	}
	var m Message
	select {
	case m, open = <-inbox:
		c.handle(m)
	default:
		open = c.inPeace(inbox)
	}
	return open
}

// inPeace exchanges one more log, or draws what is due, or goes on with what the page wants worked out, or waits for
// the next thing to do. It reports whether the inbox is open still.
func (c *Core) inPeace(inbox <-chan Message) bool {
	switch {
	case c.tidying:
		return true
	case c.posting != nil:
		c.assemble()
		return true
	case len(c.arrived) > 0 && (c.due == dueNothing || c.awaited(c.arrived[0].log)):
		c.takeIn()
		return true
	case c.due != dueNothing:
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
		case t := <-c.taken:
			c.due = c.took(t)
			return true
		case <-c.nudges:
			c.nudged()
			return true
		default:
			busy = c.slice()
		}
	}
	if c.due != dueNothing {
		return true
	}
	select {
	case m, open := <-inbox:
		c.handle(m)
		return open
	case t := <-c.taken:
		c.due = c.took(t)
	case <-c.nudges:
		c.nudged()
	}
	return true
}

func (c *Core) nudged() {
	c.alarm = 0
	c.rested()
}

// handle does what one message of the page asks.
func (c *Core) handle(m Message) {
	c.asked = &m
	switch m.Type {
	case "get":
		c.Page.Draw(c.get(m.Number, m.Path))
	case "offline":
		c.Page.Draw(c.offline(m.Number, m.Path))
	case "post":
		c.Page.Draw(c.post(m))
		c.rest()
		c.askToKeep()
	case "adopt":
		c.adopt(m)
	case "journal":
		c.unposted, c.crammed = m.Count, m.Full
		c.due = max(c.due, dueState)
	case "wake":
		c.checkStore()
		c.hidden, c.woken, c.apart = false, true, false // the server may be of another build now
		c.phone.Wake()
		c.lookForNews()
	case "hide":
		c.hidden = true
	case "news":
		c.wantNews(m.Job)
	case "tick":
		c.checkStore()
		c.hidden = false
		c.lookForNews()
		c.due = duePage // "shared 2 min ago" grows older
	case "others":
		if c.load() == nil {
			c.due = duePage
		}
	}
	c.asked = nil
}

// askToKeep asks the browser once, after the first thing worth keeping, not to throw the storage away.
func (c *Core) askToKeep() {
	if c.persists {
		return
	}
	c.persists = true
	c.kept, c.bytes = c.Page.Persist()
}

// redraw draws what is due of the page on the screen, after something else than a tap has changed it.
func (c *Core) redraw() {
	what := c.due
	c.due = dueNothing
	path, query, ok := split(c.here)
	if !ok {
		return
	}
	if !c.holds(path) {
		if c.shown == c.here {
			c.shown = ""
			c.Page.Draw(Drawing{Type: "gone", Path: c.here})
		}
		return
	}
	if c.shown != c.here && !c.caughtUp(path) {
		return
	}
	if what == dueState && c.shown == c.here {
		c.Page.Draw(c.state())
		return
	}
	delete(query, "from")
	c.lost = false
	r := c.page(path, query)
	if r.Body == nil {
		return
	}
	shown, status, forms := c.shown == c.here, c.drawn, c.forms
	d := c.drawing(0, c.here, r)
	switch {
	case shown && (r.Status >= 400 && r.Status != status || !holdsAll(d.Parts["page"], forms)): // somebody may be typing into it
		c.lost, c.drawn, c.forms = true, status, forms
		d = c.state()
	case c.said.form:
		delete(d.Parts, "page")
	}
	c.Page.Draw(d)
}

// formsIn lists the marks of the forms of a page that are for typing.
func formsIn(page string) (marks []string) {
	const mark = ` id="form-`
	for {
		_, rest, found := strings.Cut(page, mark)
		if !found {
			return marks
		}
		name, _, _ := strings.Cut(rest, `"`)
		marks, page = append(marks, mark+name+`"`), rest
	}
}

func holdsAll(page string, marks []string) bool {
	for _, m := range marks {
		if !strings.Contains(page, m) {
			return false
		}
	}
	return true
}

// state draws how the phone stands, and nothing else of the page on the screen.
func (c *Core) state() Drawing {
	var b bytes.Buffer
	d := Drawing{Type: "drawn", Path: c.here, Parts: map[string]string{}}
	device := c.status()
	d.Waiting = device.Waiting
	if view.StateInside(view.Frame{Device: device, Now: c.Now()}).Render(&b) == nil { // a buffer takes everything
		d.Parts["state"] = b.String()
	}
	return d
}
