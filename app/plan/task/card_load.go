package task

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// loadRule adds the card for loading the car.
var loadRule = rule{family: FamilyLoad, place: Load, title: "Load the car", cards: func(d *draft, r *rule) {
	if len(d.pack) == 0 {
		return
	}
	c := r.card(d, "", "")
	car := d.transport
	c.Steps = []string{
		"Frames and boxes go in first, low and against the seats. Nothing may slide.",
		"Bags of balloons go on top, away from sharp edges and the heater.",
		"Load last what you need first.",
	}
	if car.Trips > 1 {
		c.Steps = append(c.Steps, "Plan "+phrase.Count(car.Trips, "trip")+" of "+
			phrase.Number(figures.RoundUpTo(car.Litres, 10))+" litres each, or bring a second car.")
	}
	c.takes(d.effort(Load, "car", 1))
	d.hands(c, 1, d.pair())
	c.After = []Ref{FamilyPack.Only()}
	c.care(heat, lifting)
	if d.Floating() > 0 {
		c.care(helium)
	}
}}
