package device

// Run answers the page until its inbox is closed. It is the one goroutine that touches the core.
func (c *Core) Run(inbox <-chan Message) {
	c.exchange()
	for {
		select {
		case m, open := <-inbox:
			if !open {
				return
			}
			c.handle(m)
		case t := <-c.taken:
			if c.took(t) {
				c.redraw()
			}
		case <-c.nudges:
			c.alarm = 0
			c.refine()
		}
		c.exchange()
		if c.tidy() {
			c.redraw()
		}
	}
}

// handle does what one message of the page asks.
func (c *Core) handle(m Message) {
	switch m.Type {
	case "get":
		c.Page.Draw(c.get(m.Number, m.Path))
		c.refineSoon()
	case "offline":
		c.Page.Draw(c.offline(m.Number, m.Path))
	case "post":
		c.Page.Draw(c.post(m))
		c.askToKeep()
	case "wake":
		c.phone.Wake()
		c.askedMe = 0
		c.wantNews("")
	case "news":
		c.wantNews(m.Job)
	case "tick":
		c.wantNews(c.jobHere())
		c.redraw() // "shared 2 min ago" grows older
	case "others":
		if c.load() == nil {
			c.redraw()
		}
	}
}

// askToKeep asks the browser once, after the first thing worth keeping, not to throw the storage away.
func (c *Core) askToKeep() {
	if c.persists {
		return
	}
	c.persists = true
	c.kept, c.bytes = c.Page.Persist()
}

// redraw draws the page on the screen again, after something else than a tap has changed it.
func (c *Core) redraw() {
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
	delete(query, "from")
	r := c.page(path, query)
	if r.Body == nil {
		return
	}
	d := c.drawing(0, c.here, r)
	if c.said.form {
		delete(d.Parts, "page")
	}
	c.Page.Draw(d)
}
