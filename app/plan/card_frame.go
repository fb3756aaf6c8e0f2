package plan

// frameRule is putting a frame up.
func frameRule() cardRule {
	r := cardRule{family: "frame", place: Site, noun: "kit", title: of("Put up ")}
	r.cards = func(d *draft) []Card {
		var cards []Card
		for _, k := range d.framesUsed() {
			c := r.card(k.ID, k.Name)
			c.Steps = []string{
				"Two of you: feet first, then posts, then the top bar.",
				"Level it both ways and put weights on the feet before anything hangs on it.",
				"Shake it gently. If it rocks, add weight or move it; do not hope.",
			}
			if k.WidthMM > 0 {
				c.Steps = append(c.Steps, "Between the posts: "+d.length(k.WidthMM)+". No bar longer than it was tested at.")
			}
			c.takes(d.together(Site, "frame", float64(max(1, k.Count))))
			d.hands(&c, d.pair(), d.pair())
			c.After = []string{"card/unload", "card/look"}
			c.Cautions = []Caution{lifting(), exits()}
			if d.outdoors() {
				c.Cautions = append(c.Cautions, wind())
			}
			c.Piece, c.Priority = d.firstOn(k.ID)
			cards = append(cards, c)
		}
		return cards
	}
	return r
}

// firstOn is the piece on a frame that matters most, for the card's place among priorities.
func (d *draft) firstOn(frame string) (piece, priority string) {
	for _, want := range []string{"must", "should", "could"} {
		for _, c := range d.pieces {
			if c.Piece.Frame == frame && c.Piece.Priority == want {
				return c.Piece.ID, want
			}
		}
	}
	return "", "must"
}
