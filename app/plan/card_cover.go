package plan

// coverRule is hanging cloths and panels before the base goes up.
var coverRule = cardRule{family: "cover", place: Site, noun: "kit", title: "Hang ", cards: func(d *draft, r *cardRule) {
	for _, k := range d.covers() {
		c := r.card(d, k.ID, k.Name)
		c.Steps = []string{
			"Hang it on the frame before any balloons, clamps at both ends first.",
			"Steam cloths from the top down, away from balloons.",
			"Look at it from the door: straight, and clear of the floor.",
		}
		c.takes(d.together(Site, "cover", float64(k.Count)))
		d.hands(c, d.pair(), d.pair())
		c.After = append([]string{"card/unload", "card/look"}, d.frameKeys()...)
		c.care(lifting, ladder)
	}
}}

func (d *draft) frameKeys() []string {
	var keys []string
	for _, k := range d.framesUsed() {
		keys = append(keys, "card/frame/"+k.ID)
	}
	return keys
}

func (d *draft) coverKeys() []string {
	var keys []string
	for _, k := range d.covers() {
		keys = append(keys, "card/cover/"+k.ID)
	}
	return keys
}
