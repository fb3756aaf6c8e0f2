package task

// testRule adds the cards for the bench test of frames whose top bar is longer than it was ever tested at.
var testRule = rule{
	family: FamilyTest,
	place:  Home,
	noun:   "kit",
	title:  "Test the top bar of ",
	cards: func(d *draft, r *rule) {
		for _, k := range d.Frames {
			if !(k.WidthMM > k.TestedMM) || !d.HasBar(k) {
				continue
			}
			c := r.card(d, k.ID, k.Name)
			c.Steps = []string{
				"Put the bar up at " + d.Length(k.WidthMM) + ", as it will stand.",
				"Hang a full 1.5 litre bottle, about 1.55 kg, at the middle and measure how far the bar dips.",
				"Take it off and measure what dip stays: that is play in the joints.",
				"If it dips by more than " + d.SmallMM(
					k.WidthMM/d.Figures.Get("bar/useless"),
				) + ", do not use it at this width. Then write span, weight and both dips into the kit: the plan works out what " +
					"your load does.",
			}
			c.takes(d.together(Home, "test-bar", 1))
			d.hands(c, d.pair(), d.pair())
			c.care(lifting)
		}
	},
}
