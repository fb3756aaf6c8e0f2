package plan

// dressRule is putting the accents on.
func dressRule() cardRule {
	r := cardRule{family: "dress", place: Site, noun: "piece", title: of("Put the accents on ")}
	r.cards = func(d *draft) []Card {
		var cards []Card
		for _, p := range d.pieces {
			if p.Accents == 0 {
				continue
			}
			c := r.pieceCard(p)
			c.counts(batch{p.Accents, "accent", "accents"})
			c.Steps = []string{
				"Start where gaps show. Wrap the 260 round a couple of balloons of the base; glue dots hold the rest.",
				"Spread them unevenly: more at the corners and the foot, fewer in the middle.",
				"Step back to the door after every ten.",
			}
			c.takes(d.effort(Site, "fix-cluster", float64(p.Accents)))
			d.hands(&c, 1, d.most())
			c.After = []string{"card/fix/" + p.Piece.ID, "card/accents/" + p.Piece.ID}
			if p.highMM > d.figures.get("hands/ladder") {
				c.Cautions = append(c.Cautions, ladder())
			}
			cards = append(cards, c)
		}
		return cards
	}
	return r
}
