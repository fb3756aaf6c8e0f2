package device

import "strings"

// refineMS is how long a clock that was answered at once stands before it is worked out further, so that taps come first.
const refineMS = 300

// refineSoon has the clock on the screen worked out further in a moment, if there is more to it.
func (c *Core) refineSoon() {
	if !c.onClock() || !c.clocks.Behind() {
		return
	}
	c.Later(refineMS, func() {
		select {
		case c.nudges <- struct{}{}:
		default: // it rings already
		}
	})
}

// refine draws the clock on the screen anew, a step further.
func (c *Core) refine() {
	if c.onClock() {
		c.redraw()
		c.refineSoon()
	}
}

func (c *Core) onClock() bool {
	path, _, _ := strings.Cut(c.here, "?")
	return strings.HasSuffix(path, "/clock")
}
