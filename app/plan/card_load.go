package plan

// loadRule is loading the car.
var loadRule = cardRule{family: "load", place: Load, title: "Load the car", cards: func(d *cardDraft, r *cardRule) {
	if len(d.pack) == 0 {
		return
	}
	c := r.card(d, "", "")
	haul := d.haul
	c.Steps = []string{
		"Frames and boxes first, low and against the seats; nothing may slide.",
		"Bags of balloons on top, away from sharp edges and the heater.",
		"What is needed first goes in last.",
	}
	if haul.trips > 1 {
		c.Steps = append(c.Steps,
			"It takes about "+count(haul.trips, "trip")+" at "+number(roundTo(haul.litres, 10))+" litres each, or a second car.")
	}
	c.takes(d.effort(Load, "car", 1))
	d.hands(c, 1, d.pair())
	c.After = []string{"card/pack"}
	c.care(heat, lifting)
	if d.floating() > 0 {
		c.care(helium)
	}
}}
