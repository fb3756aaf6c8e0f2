package plan

// outdoorNotes warns of wind and sun.
func outdoorNotes(d *noteDraft) {
	if !d.outdoors() || len(d.pieces) == 0 {
		return
	}
	d.warn(
		"",
		"Outdoors: agree a wind limit with the venue beforehand and who watches it, weigh every foot, and expect sun to dull and burst balloons within the day. Local codes and the venue's rules come first.",
	)
	for _, k := range d.frames {
		if _, stands := d.ballastKG(k); !stands {
			d.warn(
				"",
				k.Name+": with cloth or panels on it no weight makes it safe"+d.gustWords(
					k,
				)+". Leave it bare or bring it under a roof.",
			)
		}
	}
	if d.floating() > 0 {
		d.warn(
			"",
			"Helium balloons outdoors must be tied to weights at all times. Letting them go is against the law in many places, and they end as litter everywhere.",
		)
	}
}
