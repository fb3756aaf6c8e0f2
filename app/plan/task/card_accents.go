package task

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
)

// accentRule adds the cards for making the small clusters that go on top.
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
				"Fill " + d.recipeWords(p.Accent) + ", tie them in twos and twist the duplets into a small cluster.",
				"Tie a 260 to it: one with a cluster at each end, or half of one for a single cluster.",
				"Bag them by themselves; small balloons burst under big ones.",
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
