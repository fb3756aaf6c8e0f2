package device

import "runtime"

const (
	// sliceMS is how long work runs before events are handled. A tap waits for no more than that and the longest stretch
	// without a pause.
	sliceMS = 16
	// restMS is how long after a tap work starts, so that further taps are handled first.
	restMS = 300
)

// work is background work that a page wants done.
type work struct {
	key string
	do  func(pause func())
}

// task is work under way, done a slice at a time. It has a goroutine of its own that takes turns with the core's: only
// one of the two runs.
type task struct {
	key   string
	job   string    // that it is about, "" for none
	fault any       // what it panicked with
	asked bool      // the page drawn last wants it
	begun int64     // when its slice began
	turn  chan bool // go on, or false: be gone
	rest  chan bool // it has paused; closed: it has ended
}

// later notes work that the page being drawn wants done.
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

// startWork starts wanted work, unless a task is under way or the core rests after a tap. It reports whether there is a
// task to run.
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

// slice runs the task for a little while, then lets events in. It reports whether there is more to do. At the end of
// the task the page is redrawn.
func (c *Core) slice() bool {
	t := c.task
	defer c.working(t.job)()
	t.begun = c.Now()
	t.turn <- true
	if <-t.rest {
		c.Pause()
		return true
	}
	c.task, c.pending = nil, redrawPage
	if t.fault != nil {
		panic(t.fault)
	}
	return false
}

// forgetWork forgets what work is wanted, before a page is drawn that says so anew.
func (c *Core) forgetWork() {
	c.wanted = nil
	if c.task != nil {
		c.task.asked = false
	}
}

// drop ends a task that the last page does not want: its job has changed, or another page was opened.
func (c *Core) drop() {
	if t := c.task; t != nil && !t.asked {
		t.turn <- false
		<-t.rest
		c.task = nil
	}
}

// rest pauses work after a tap. Further taps lengthen the pause.
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

// rested ends the pause, unless somebody tapped again meanwhile.
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
