package device

// refineMS is how long a clock that was answered at once stands before it is worked out further, so that taps come first.
const refineMS = 300

// refineSoon has the clock on the screen worked out further in a moment, if there is more to it.
func (c *Core) refineSoon() {
	if !c.clocks.Behind() {
		return
	}
	c.stirred = c.finer
	if !c.finer {
		c.finer = true
		c.ringSoon()
	}
}

func (c *Core) ringSoon() {
	c.Later(refineMS, func() {
		select {
		case c.nudges <- struct{}{}:
		default: // it rings already
		}
	})
}

// refine draws the page with the clock anew, a step further. While somebody goes on tapping it waits for a pause.
func (c *Core) refine() {
	if !c.finer {
		return
	}
	if c.stirred {
		c.stirred = false
		c.ringSoon()
		return
	}
	c.finer, c.clocks.Lags = false, false
	c.due = duePage
	c.redraw()
	c.clocks.Lags = true
	c.refineSoon()
}
