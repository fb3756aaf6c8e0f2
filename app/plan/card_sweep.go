package plan

// sweepRule is handing the room back.
func sweepRule() cardRule {
	r := cardRule{family: "sweep", place: TakeDown, title: always("Sweep and hand the room back")}
	r.cards = func(d *draft) []Card {
		if len(d.pieces) == 0 {
			return nil
		}
		c := r.card("", "")
		c.Steps = []string{
			"Sweep until no piece of balloon is left, under furniture too.",
			"Take off hooks and tape; take the bin bags with you unless the venue said otherwise.",
			"Show the room to whoever has the keys.",
		}
		c.takes(d.effort(TakeDown, "sweep", 1))
		d.hands(&c, 1, d.most())
		c.After = d.lastKeys(TakeDown)
		c.Cautions = []Caution{choking()}
		return []Card{c}
	}
	return r
}
