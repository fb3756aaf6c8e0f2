package plan

// joinRule is joining clusters into a base, in sections.
var joinRule = cardRule{
	family: "join",
	place:  Home,
	noun:   "piece",
	title:  "Join the base of ",
	cards: func(d *cardDraft, r *cardRule) {
		for _, p := range d.pieces {
			if !p.joined || len(p.Sections) == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			c.Place = p.where
			c.counts(batch{len(p.Sections), "section", "sections"})
			c.Steps = []string{"Double a 260 into a loop and twist it round one balloon of the last cluster.",
				"Pull two or three balloons of the next cluster through the loop. Fewer than two will not hold.",
				"Push the clusters together until the base is full but still bends."}
			if len(p.Sections) > 1 {
				c.Steps = append(
					c.Steps,
					"A section has "+clusterRange(p.Sections)+", about "+d.length(
						p.Sections[0].LengthMM,
					)+". Number them 1 to "+number(float64(len(p.Sections)))+".",
				)
			}
			c.takes(d.effort(p.where, "join", float64(p.Clusters)))
			d.hands(c, 1, d.pair())
			c.After = []string{"card/make/" + p.Piece.ID, "card/ahead/" + p.Piece.ID}
			c.care(eyes)
		}
	},
}

// clusterRange says how many clusters sections have: "12 clusters", or "11 to 12 clusters".
func clusterRange(sections []Section) string {
	least, most := sections[0].Clusters, sections[0].Clusters
	for _, s := range sections {
		least, most = min(least, s.Clusters), max(most, s.Clusters)
	}
	if least == most {
		return count(most, "cluster")
	}
	return number(float64(least)) + " to " + count(most, "cluster")
}
