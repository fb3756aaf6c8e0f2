package task

import "garlandry/app/plan/count"

// dressRule adds the cards for putting the accents on.
var dressRule = rule{
	family: FamilyDress,
	place:  Site,
	noun:   "piece",
	title:  "Put the accents on ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.counts(count.Batch{Count: p.Accents, One: "accent", Many: "accents"})
			c.Steps = []string{
				"Start where gaps show. Wrap the 260 round two balloons of the base. Use glue dots for the rest.",
				"Spread them unevenly: more at the corners and the foot, fewer in the middle.",
				"Check from the door after every ten.",
			}
			c.takes(d.effort(Site, "fix-cluster", float64(p.Accents)))
			d.hands(c, 1, d.most())
			c.After = []Ref{FamilyFix.Of(p.Piece.ID), FamilyAccents.Of(p.Piece.ID)}
			if p.HighMM > d.Figures.Get("hands/ladder") {
				c.care(ladder)
			}
		}
	},
}
