package device

import "runtime"

const (
	// sliceMS is for how long work goes on before what came from outside is let in. A tap waits for no more than that, and
	// the longest stretch without a pause.
	sliceMS = 16
	// restMS is how long after a tap that changed something work begins, so that the taps after it come first.
	restMS = 300
)

// work is something that a page wants worked out while nobody waits for it.
type work struct {
	key string
	do  func(pause func())
}

// task is work under way. It goes on a slice at a time, in a goroutine of its own that never runs beside the core's:
// while one of the two goes on the other waits for it.
type task struct {
	key   string
	job   string    // that it is about, "" for none
	fault any       // what it panicked with
	asked bool      // the page drawn last wants it
	begun int64     // when its slice began
	turn  chan bool // go on, or false: be gone
	rest  chan bool // it has paused; closed: it has ended
}

// later notes work that the page being made wants done.
func (c *Core) later(key string, do func(pause func())) {
	if c.task != nil && c.task.key == key {
		c.task.asked = true
		return
	}
	for i := range c.wanted {
		if c.wanted[i].key == key {
			return
		}
	}
	c.wanted = append(c.wanted, work{key, do})
}

// startWork begins with what is wanted, unless something is under way or a rest is kept. It reports whether there is
// work.
func (c *Core) startWork() bool {
	if c.task == nil && len(c.wanted) > 0 && !c.rests {
		c.start(c.wanted[0])
		c.wanted = c.wanted[1:]
	}
	return c.task != nil && !c.rests
}

func (c *Core) start(w work) {
	t := &task{key: w.key, job: c.jobHere(), asked: true, turn: make(chan bool), rest: make(chan bool)}
	c.task = t
	pause := func() {
		if spent := c.Now() - t.begun; 0 <= spent && spent < sliceMS {
			return
		}
		t.rest <- true
		if !<-t.turn {
			runtime.Goexit()
		}
	}
	c.Go(func() {
		defer close(t.rest)
		defer func() { t.fault = recover() }() // nobody else can; slice panics with it where it is dealt with
		if <-t.turn {
			w.do(pause)
		}
	})
}

// slice goes on with the work for a little while, then lets in what came from outside. It reports whether there is more
// of it to do; at its end the page is to be drawn again.
func (c *Core) slice() bool {
	t := c.task
	defer c.working(t.job)()
	t.begun = c.Now()
	t.turn <- true
	if <-t.rest {
		c.Pause()
		return true
	}
	c.task, c.due = nil, duePage
	if t.fault != nil {
		panic(t.fault)
	}
	return false
}

// forgetWork is before a page is made: it will say what it wants.
func (c *Core) forgetWork() {
	c.wanted = nil
	if c.task != nil {
		c.task.asked = false
	}
}

// drop ends work that the page made last does not want any more: its job has changed, or somebody went elsewhere. What
// is under way and wanted goes on as it is.
func (c *Core) drop() {
	if t := c.task; t != nil && !t.asked {
		t.turn <- false
		<-t.rest
		c.task = nil
	}
}

// rest leaves work alone for a moment after a tap; while somebody goes on tapping, until a pause.
func (c *Core) rest() {
	c.stirred = c.rests
	if !c.rests && (c.task != nil || len(c.wanted) > 0) {
		c.rests = true
		c.ringSoon()
	}
}

func (c *Core) ringSoon() {
	c.Later(restMS, func() {
		select {
		case c.nudges <- struct{}{}:
		default: // it rings already
		}
	})
}

// rested ends the rest, unless somebody tapped again meanwhile.
func (c *Core) rested() {
	switch {
	case !c.rests:
	case c.stirred:
		c.stirred = false
		c.ringSoon()
	default:
		c.rests = false
	}
}
