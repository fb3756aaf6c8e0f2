package plan

// strikeRule is taking frames down once nothing hangs on them.
var strikeRule = cardRule{
	family: "strike",
	place:  TakeDown,
	noun:   "kit",
	title:  "Take apart ",
	cards: func(d *cardDraft, r *cardRule) {
		for _, k := range d.frames {
			c := r.card(d, k.ID, k.Name)
			c.Steps = []string{"Two of you: what is on top first, then posts, feet and weights last.",
				"Back into its bag; count the pieces."}
			c.takes(d.together(TakeDown, "strike", float64(max(1, k.Count))))
			d.hands(c, d.pair(), d.pair())
			for _, p := range d.pieces {
				if p.Piece.Frame == k.ID {
					c.After = append(c.After, "card/down/"+p.Piece.ID)
				}
			}
			c.care(lifting)
		}
	},
}
