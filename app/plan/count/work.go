package count

import "garlandry/app/plan/figures"

// SiteMinutes returns how many person-minutes the crew at the venue takes to make there what is made at home of a
// piece, accents and joining included, and how many of them are for joining.
func (d *Draft) SiteMinutes(c *Counted) (all, join float64) {
	switch {
	case !c.OnSite:
		all = d.makeMinutes(c)
	case c.Make.Count > 0:
		all = float64(d.makeMinutes(c) * float64(c.Ahead) / float64(c.Make.Count))
	}
	if !c.OnSite && c.Joined && len(c.Sections) > 0 {
		join = d.siteMinutes("join", c.Clusters)
	}
	all += join
	for _, on := range c.On() {
		if on.OnSite {
			continue
		}
		all += d.siteMinutes("twist", on.Clusters)
		for _, part := range on.Parts {
			all += d.siteMinutes(figures.DupletKey(part.SizeIn), part.Duplets)
		}
	}
	return all, join
}

// makeMinutes returns the person-minutes to fill, tie and twist a whole piece at the venue, without its accents.
func (d *Draft) makeMinutes(c *Counted) float64 {
	if c.Helium {
		return d.siteMinutes("helium", c.BaseBalloons())
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
