package plan

// reloadRule is taking the kit home.
func reloadRule() cardRule {
	r := cardRule{family: "reload", place: TakeDown, title: always("Kit back into the car")}
	r.cards = func(d *draft) []Card {
		kit := 0
		for _, b := range d.plan.Pack {
			for _, line := range b.Lines {
				if line.Kit {
					kit++
				}
			}
		}
		if kit == 0 {
			return nil
		}
		c := r.card("", "")
		c.Steps = []string{"Go through the pack list: everything marked “comes home again”, " + count(kit, "line") + ".", "Look behind curtains and under tables."}
		c.takes(d.effort(TakeDown, "car", 1))
		d.hands(&c, 1, d.pair())
		c.After = d.lastKeys(TakeDown)
		c.Cautions = []Caution{lifting()}
		return []Card{c}
	}
	return r
}
