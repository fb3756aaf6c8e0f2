package plan

// frameRule is putting a frame up.
var frameRule = cardRule{family: "frame", place: Site, noun: "kit", title: "Put up ", cards: func(d *draft, r *cardRule) {
	for _, k := range d.framesUsed() {
		c := r.card(d, k.ID, k.Name)
		c.Steps = []string{
			"Two of you: feet first, then posts, then the top bar.",
			"Level it both ways and put weights on the feet before anything hangs on it.",
			"Shake it gently. If it rocks, add weight or move it; do not hope.",
		}
		if k.WidthMM > 0 {
			c.Steps = append(c.Steps, "Between the posts: "+d.length(k.WidthMM)+". No bar longer than it was tested at.")
		}
		c.takes(d.together(Site, "frame", float64(max(1, k.Count))))
		d.hands(c, d.pair(), d.pair())
		c.After = []string{"card/unload", "card/look"}
		c.care(lifting, exits)
		if d.outdoors() {
			c.care(wind)
		}
		c.Piece, c.Priority = d.firstOn(k.ID)
	}
}}

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
