package task

// strikeRule adds the cards for taking empty frames apart.
var strikeRule = rule{
	family: FamilyStrike,
	place:  TakeDown,
	noun:   "kit",
	title:  "Take apart ",
	cards: func(d *draft, r *rule) {
		for _, k := range d.Frames {
			c := r.card(d, k.ID, k.Name)
			c.Steps = []string{"Two of you: start at the top. Feet and weights come last.",
				"Count the parts back into the bag."}
			c.takes(d.together(TakeDown, "strike", float64(max(1, k.Count))))
			d.hands(c, d.pair(), d.pair())
			for _, p := range d.Pieces {
				if p.Piece.Frame == k.ID {
					c.After = append(c.After, FamilyDown.Of(p.Piece.ID))
				}
			}
			c.care(lifting)
		}
	},
}
