package plan

// outdoorNotes warns of wind and sun.
func outdoorNotes(d *draft) {
	if !d.Outdoors() || len(d.Pieces) == 0 {
		return
	}
	d.Warn(
		"",
		"Outdoors: agree a wind limit with the venue beforehand and who watches it, weigh every foot, and expect sun to "+
			"dull and burst balloons within the day. Local codes and the venue's rules come first.",
	)
	for _, k := range d.Frames {
		if _, stands := d.BallastKG(k); !stands {
			d.Warn(
				"",
				k.Name+": with cloth or panels on it no weight makes it safe"+d.GustWords(
					k,
				)+". Leave it bare or bring it under a roof.",
			)
		}
	}
	if d.Floating() > 0 {
		d.Warn(
			"",
			"Helium balloons outdoors must be tied to weights at all times. Letting them go is against the law in many "+
				"places, and they end as litter everywhere.",
		)
	}
}
