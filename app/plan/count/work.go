package count

import "garlandry/app/plan/figures"

// SiteMinutes returns how many person-minutes the crew at the venue takes to make there what is made at home of a
// piece, accents and joining included, and how many of them are for joining.
func (d *Draft) SiteMinutes(c *Counted) (all, join float64) {
	if c.OnSite {
		if c.Make.Count > 0 {
			all = float64(d.makeMinutes(c) * float64(c.Ahead) / float64(c.Make.Count))
		}
		return all, 0
	}
	if c.Joined && len(c.Sections) > 0 {
		join = d.siteMinutes("join", c.Clusters)
	}
	all = d.makeMinutes(c) + join + d.siteMinutes("twist", c.Accents)
	for _, part := range c.AccentBy {
		all += d.siteMinutes(figures.DupletKey(part.SizeIn), part.Duplets)
	}
	return all, join
}

// makeMinutes returns the person-minutes to fill, tie and twist a whole piece at the venue, without its accents.
func (d *Draft) makeMinutes(c *Counted) float64 {
	if c.Helium {
		return d.siteMinutes("helium", c.Balloons-c.AccentBalloons)
	}
	total := d.siteMinutes("twist", c.Twists())
	for _, part := range c.Parts {
		total += d.siteMinutes(figures.DupletKey(part.SizeIn), part.Duplets)
	}
	return total
}

// siteMinutes returns the person-minutes of the crew at the venue for a row of the time table, times over.
func (d *Draft) siteMinutes(key string, times int) float64 {
	slow := d.Figures.Get("minutes/" + key + "/" + string(figures.Beginner))
	fast := d.Figures.Get("minutes/" + key + "/" + string(figures.Practised))
	return float64(figures.MeanMinutes(d.Site, slow, fast) * float64(times))
}
