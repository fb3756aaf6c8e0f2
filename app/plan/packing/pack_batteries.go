package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// batteryRule packs spare bulbs or batteries for anything in the kit that lights.
var batteryRule = rule{family: "supply/batteries", bag: "bag/air", one: "Spare bulbs or batteries",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		for _, k := range d.Job.Kit {
			if k.Kind == "other" &&
				phrase.HasWord(k.Name, "light", "lights", "lit", "lamp", "lamps", "neon", "led", "leds", "bulb", "bulbs") {
				return 1, k.Name + " lights up", &figures.Usual
			}
		}
		return 0, "", nil
	}}
