package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// powerNotes says how many balloons are filled without power.
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
		d.Warn("", "No power at the venue: "+phrase.Count(n, "balloon")+
			" to fill by battery or hand pump. Make at home what fits into the car.")
	}
}
