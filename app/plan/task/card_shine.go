package task

// shineRule adds the card for spraying shine on what hangs.
var shineRule = rule{
	family: FamilyShine,
	place:  Site,
	title:  "Spray for shine",
	cards: func(d *draft, r *rule) {
		base := d.BaseMM()
		if !(base > 0) {
			return
		}
		c := r.card(d, "", "")
		c.Steps = []string{"Cover the floor and anything that must not shine. Open a window.",
			"Spray thin and even from an arm's length, away from faces, flames and lamps. Follow the label.",
			"Wipe the floor at once: spray makes it slippery."}
		c.takes(d.effort(Site, "shine-10ft", base/3048))
		c.Priority = "could"
		for _, p := range d.Pieces {
			if p.LineMM > 0 {
				c.After = append(c.After, dressed(p)...)
			}
		}
	},
}
