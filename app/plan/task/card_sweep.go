package task

// sweepRule adds the card for cleaning up before the room is handed back.
var sweepRule = rule{
	family: FamilySweep,
	place:  TakeDown,
	title:  "Sweep and hand the room back",
	cards: func(d *draft, r *rule) {
		if len(d.Pieces) == 0 {
			return
		}
		c := r.card(d, "", "")
		c.Steps = []string{"Sweep until no piece of balloon is left, under furniture too.",
			"Remove hooks and tape. Take the bin bags with you unless the venue says otherwise.",
			"Show the room to whoever has the keys."}
		c.takes(d.effort(TakeDown, "sweep", 1))
		d.hands(c, 1, d.most())
		c.After = d.last(TakeDown)
		c.care(choking)
	},
}
