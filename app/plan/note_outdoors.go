package plan

// outdoorNotes warns about wind and sun.
func outdoorNotes(d *draft) {
	if !d.Outdoors() || len(d.Pieces) == 0 {
		return
	}
	d.Warn("", "Outdoors: agree a wind limit with the venue and name who watches it. Weigh down every foot. Sun dulls "+
		"and bursts balloons within the day. Local codes and the venue's rules come first.")
	for _, k := range d.Frames {
		if _, stands := d.BallastKG(k); !stands {
			d.Warn("", k.Name+": with cloth or panels on it, no weight makes it safe"+d.GustWords(k)+
				". Leave it bare or put it under a roof.")
		}
	}
	if d.Floating() > 0 {
		d.Warn("", "Outdoors, keep every helium balloon tied to a weight. Letting one go is illegal in many places and "+
			"litter everywhere.")
	}
}
