package device

import "runtime"

const (
	// sliceMS is how long work runs before events are handled. A tap waits no longer than that plus one step of the work.
	sliceMS = 8
	// restMS is how long work waits after a tap, so that further taps are handled first.
	restMS = 300
)

// work is background work that a page wants done.
type work struct {
	key   string
	job   string // "" for none
	quiet bool   // nothing is redrawn for it while other work waits
	do    func(pause func())
}

// task is work under way, done a slice at a time. Its goroutine and the core's take turns: only one of them runs.
type task struct {
	key    string
	job    string // "" for none
	quiet  bool
	fault  any       // what it panicked with
	wanted bool      // by the page drawn last
	begun  int64     // when its slice began
	turn   chan bool // true: go on; false: end
	rest   chan bool // it has paused; closed: it has ended
}

// later notes work that the page being drawn wants done.
func (c *Core) later(key string, do func(pause func())) {
	c.want(work{key: key, job: c.jobHere(), do: do})
}

func (c *Core) want(w work) {
	if c.task != nil && c.task.key == w.key {
		c.task.wanted = true
		return
	}
	for i := range c.queued {
		if c.queued[i].key == w.key {
			return
		}
	}
	c.queued = append(c.queued, w)
}

// startWork starts wanted work, unless a task is under way or the core rests after a tap. It reports whether there is a
// task to run.
func (c *Core) startWork() bool {
	if c.task == nil && len(c.queued) > 0 && !c.resting {
		c.start(c.queued[0])
		c.queued = c.queued[1:]
	}
	return c.task != nil && !c.resting
}

func (c *Core) start(w work) {
	t := &task{key: w.key, job: w.job, quiet: w.quiet, wanted: true, turn: make(chan bool), rest: make(chan bool)}
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
		defer func() { t.fault = recover() }() // passed on to slice, which panics with it
		if <-t.turn {
			w.do(pause)
		}
	})
}

// slice runs the task for a slice, then lets events in. It reports whether there is more to do. The page is redrawn
// when the task ends.
func (c *Core) slice() bool {
	t := c.task
	defer c.working(t.job)()
	t.begun = c.Now()
	t.turn <- true
	if <-t.rest {
		c.Pause()
		return true
	}
	c.task = nil
	if !t.quiet || t.fault != nil || len(c.queued) == 0 {
		c.pending = redrawPage
	}
	if t.fault != nil {
		panic(t.fault)
	}
	return false
}

// forgetWork clears the queue before a page is drawn, which queues what it wants.
func (c *Core) forgetWork() {
	c.queued = nil
	if c.task != nil {
		c.task.wanted = false
	}
}

// dropTask ends a task that the last page does not want: its job has changed, or another page was opened.
func (c *Core) dropTask() {
	if t := c.task; t != nil && !t.wanted {
		t.turn <- false
		<-t.rest
		c.task = nil
	}
}

// restAfterTap pauses work after a tap. Further taps lengthen the pause.
func (c *Core) restAfterTap() {
	c.tappedAgain = c.resting
	if !c.resting && (c.task != nil || len(c.queued) > 0) {
		c.resting = true
		c.setRestAlarm()
	}
}

func (c *Core) setRestAlarm() {
	c.Later(restMS, func() {
		select {
		case c.alarms <- struct{}{}:
		default: // it rings already
		}
	})
}

// endRest ends the pause, unless somebody tapped again.
func (c *Core) endRest() {
	switch {
	case !c.resting:
	case c.tappedAgain:
		c.tappedAgain = false
		c.setRestAlarm()
	default:
		c.resting = false
	}
}
