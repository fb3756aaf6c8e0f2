package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// powerNotes says how many balloons are filled without a socket because there is no power.
func powerNotes(d *draft) {
	if d.Job.Brief.Power != "none" {
		return
	}
	n := d.Sum(func(c *count.Counted) int {
		switch {
		case c.Helium:
			return 0
		case !d.Travels(): // then home is there too
			return c.Balloons
		}
		return c.Balloons - int(float64(c.AtHome()*float64(c.Balloons))+0.5)
	})
	if n == 0 {
		return
	}
	words := "No power at the venue: " + phrase.Count(n, "balloon") + " to fill "
	if pump := d.BatteryPump(); pump != "" {
		d.Inform("", words+"with "+pump+". Charge it the day before and bring a spare battery.")
		return
	}
	words += "by hand pump. That takes longer than the minutes here, which are for an electric pump. Bring one with a " +
		"battery"
	if d.Travels() {
		words += ", or make at home what fits into the car"
	}
	d.Warn("", words+".")
}
