package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// powerNotes says what no power means for balloons filled on site.
func powerNotes(d *draft) {
	if d.Job.Brief.Power != "none" {
		return
	}
	n := d.Sum(func(c *count.Counted) int {
		if c.OnSite && !c.Helium {
			return c.Balloons - int(float64(c.AtHome()*float64(c.Balloons))+0.5)
		}
		return 0
	})
	if n > 0 {
		d.Warn(
			"",
			"There is no power at the venue, and "+phrase.Count(
				n,
				"balloon",
			)+" are filled there by hand pump. Build at home what the car takes.",
		)
	}
}
