package task

// reloadRule adds the card for loading the kit to take it home.
var reloadRule = rule{
	family: FamilyReload,
	place:  TakeDown,
	title:  "Load the kit back into the car",
	cards: func(d *draft, r *rule) {
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
		c.Steps = []string{"Tick what comes home as it goes into the car.",
			"Look behind curtains and under tables."}
		c.takes(d.effort(TakeDown, "car", 1))
		d.hands(c, 1, d.pair())
		c.After = d.last(TakeDown)
		c.care(lifting)
	},
}
