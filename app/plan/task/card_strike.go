package task

import "garlandry/app/plan/rigging"

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
			n := float64(max(1, k.Count))
			if rigging.Upright(k) {
				c.Steps[0] = "Start at the top. Feet and weights come last."
				c.takes(d.effort(TakeDown, "strike-stand", n))
				d.hands(c, 1, d.pair())
			} else {
				c.takes(d.together(TakeDown, "strike", n))
				d.hands(c, d.pair(), d.pair())
			}
			if d.Staked(k.ID, "") {
				c.Steps = append(c.Steps,
					"Pull every stake and count them: a stake left in the grass hurts people and mowers.")
			}
			for _, p := range d.Pieces {
				if p.Piece.Frame == k.ID {
					c.After = append(c.After, FamilyDown.Of(p.Piece.ID))
				}
			}
			c.care(lifting)
		}
	},
}
