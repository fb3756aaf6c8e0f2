package plan

// powerNotes says what no power means for balloons filled on site.
func powerNotes(d *noteDraft) {
	if d.job.Brief.Power != "none" {
		return
	}
	n := d.sum(func(c *counted) int {
		if c.where == Site && !c.helium {
			return c.Balloons - int(float64(c.atHome()*float64(c.Balloons))+0.5)
		}
		return 0
	})
	if n > 0 {
		d.warn(
			"",
			"There is no power at the venue, and "+count(
				n,
				"balloon",
			)+" are filled there by hand pump. Build at home what the car takes.",
		)
	}
}
