package plan

// batteryRule packs spare bulbs or batteries for anything in the kit that lights.
var batteryRule = packRule{family: "supply/batteries", bag: "bag/air", one: "Spare bulbs or batteries",
	need: func(d *Rig) (int, string, *Source) {
		for _, k := range d.job.Kit {
			if k.Kind == "other" &&
				says(k.Name, "light", "lights", "lit", "lamp", "lamps", "neon", "led", "leds", "bulb", "bulbs") {
				return 1, k.Name + " lights up", &usual
			}
		}
		return 0, "", nil
	}}
