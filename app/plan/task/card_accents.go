package task

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
)

// accentRule adds the cards for making accents: small clusters on top of the base.
var accentRule = rule{
	family: FamilyAccents,
	place:  Home,
	noun:   "piece",
	title:  "Make the accents for ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.Place = place(p)
			c.counts(count.Batch{Count: p.Accents, One: "accent", Many: "accents"})
			c.Steps = []string{
				"Fill " + d.recipeWords(p.Accent) + ", tie them in pairs and twist the pairs into a small cluster.",
				"Tie on a 260: one between two clusters, or half of one for a single cluster.",
				"Bag them separately: small balloons burst under big ones.",
			}
			total := d.effort(place(p), "twist", float64(p.Accents))
			for _, part := range p.AccentBy {
				total = total.plus(d.effort(place(p), figures.DupletKey(part.SizeIn), float64(part.Duplets)))
			}
			c.takes(total)
			d.hands(c, 1, d.most())
			c.After = ready(place(p))
			c.care(choking, eyes)
		}
	},
}
