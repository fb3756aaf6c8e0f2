package task

// reloadRule adds the card for loading the kit to take it home.
var reloadRule = rule{
	family: FamilyReload,
	place:  TakeDown,
	title:  "Load the kit back into the car",
	cards: func(d *draft, r *rule) {
		if d.transport.None {
			return
		}
		kit := 0
		for _, b := range d.pack {
			for _, line := range b.Lines {
				if line.Kit {
					kit++
				}
			}
		}
		if kit == 0 {
			return
		}
		c := r.card(d, "", "")
		if len(d.transport.Cars) > 1 {
			c.Title = "Load the kit back into the cars"
		}
		c.Steps = []string{"Tick what comes home as it goes into the car.",
			"Look behind curtains and under tables."}
		c.takes(d.carryIn(d.boxes(true), min(d.pair(), len(d.Site))))
		d.hands(c, 1, d.pair())
		c.Cars = d.allCars()
		c.After = d.last(TakeDown)
		c.care(lifting)
	},
}
