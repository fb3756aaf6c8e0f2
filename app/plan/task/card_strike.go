package task

// strikeRule adds the cards for taking frames down once nothing hangs on them.
var strikeRule = rule{
	family: FamilyStrike,
	place:  TakeDown,
	noun:   "kit",
	title:  "Take apart ",
	cards: func(d *draft, r *rule) {
		for _, k := range d.Frames {
			c := r.card(d, k.ID, k.Name)
			c.Steps = []string{"Two of you: what is on top first, then posts, feet and weights last.",
				"Back into its bag; count the pieces."}
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
