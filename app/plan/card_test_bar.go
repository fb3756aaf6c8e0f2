package plan

// testRule is the bench test of frames whose top bar is longer than it was ever tested at.
func testRule() cardRule {
	r := cardRule{family: "test", place: Home, noun: "kit", title: of("Test the top bar of ")}
	r.cards = func(d *draft) []Card {
		var cards []Card
		for _, k := range d.framesUsed() {
			if !(k.WidthMM > k.TestedMM) {
				continue
			}
			c := r.card(k.ID, k.Name)
			c.Steps = []string{
				"Put the bar up at " + d.length(k.WidthMM) + ", as it will stand.",
				"Hang a full 1.5 litre bottle, about 1.55 kg, at the middle and measure how far the bar dips.",
				"Take it off and measure what dip stays: that is play in the joints.",
				"If it dips by more than " + d.length(k.WidthMM/50) + ", do not use it at this width. Then write the tested span into the kit.",
			}
			c.takes(d.together(Home, "test-bar", 1))
			d.hands(&c, d.pair(), d.pair())
			c.Cautions = []Caution{lifting()}
			cards = append(cards, c)
		}
		return cards
	}
	return r
}
