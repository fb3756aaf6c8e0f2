package task

import (
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
)

// loadRule adds the card for loading the car.
var loadRule = rule{family: FamilyLoad, place: Load, title: "Load the car", cards: func(d *draft, r *rule) {
	if len(d.pack) == 0 || d.transport.None {
		return
	}
	c := r.card(d, "", "")
	if len(d.transport.Cars) > 1 {
		c.Title = "Load the cars"
	}
	c.Steps = []string{
		"Frames and boxes go in first, low and against the seats. Nothing may slide.",
		"Bags of balloons go on top, away from sharp edges and the heater.",
		"Load last what you need first.",
	}
	c.Steps = append(c.Steps, d.loadWords()...)
	c.takes(d.handling(Load, d.firstThings()))
	d.hands(c, 1, d.pair())
	c.Cars = d.allCars()
	c.After = []Ref{FamilyPack.Only()}
	c.care(heat, lifting)
	if d.Floating() > 0 {
		c.care(helium)
	}
}}

// loadWords says what goes where if there are several loads.
func (d *draft) loadWords() (steps []string) {
	car := &d.transport
	if len(car.Loads) < 2 {
		return nil
	}
	for i := range car.Loads {
		load := &car.Loads[i]
		words := "Load " + strconv.Itoa(load.Number)
		if len(car.Cars) > 1 {
			words = car.Cars[load.Car].Name + ", load " + strconv.Itoa(load.Number)
		}
		steps = append(steps, words+": "+load.Words()+".")
	}
	if rounds := car.Rounds(); rounds > 1 && len(car.Cars) == 1 {
		steps = append(steps, "Plan "+phrase.Count(rounds, "trip")+" of "+
			phrase.Number(figures.RoundUpTo(car.Cars[0].Litres, 10))+" litres each, or bring a second car.")
	}
	return steps
}

// allCars lists the ids of the cars that drive.
func (d *draft) allCars() (ids []string) {
	for i := range d.transport.Cars {
		ids = append(ids, d.transport.Cars[i].ID)
	}
	return ids
}
