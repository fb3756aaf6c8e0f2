package plan

// accentRule is making the small clusters that go on top.
var accentRule = cardRule{
	family: "accents",
	place:  Home,
	noun:   "piece",
	title:  "Make the accents for ",
	cards: func(d *cardDraft, r *cardRule) {
		for _, p := range d.pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.Place = p.where
			c.counts(batch{p.Accents, "accent", "accents"})
			c.Steps = []string{
				"Fill " + d.recipeWords(p.accent) + ", tie them in twos and twist the duplets into a small cluster.",
				"Tie a 260 to it: one with a cluster at each end, or half of one for a single cluster.",
				"Bag them by themselves; small balloons burst under big ones.",
			}
			total := d.effort(p.where, "twist", float64(p.Accents))
			for _, part := range p.accentBy {
				total = total.plus(d.effort(p.where, dupletKey(part.sizeIn), float64(part.duplets)))
			}
			c.takes(total)
			d.hands(c, 1, d.most())
			c.After = ready(p.where)
			c.care(choking, eyes)
		}
	},
}
