package task

import "garlandry/calc/measure"

// fullBottleG is the mass of a full 1.5 litre bottle of water (common practice, no source).
const fullBottleG = 1550.0

// testRule adds the bench test of frames that are set wider than their top bar was tested.
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
				"Set the bar up at " + d.Length(k.WidthMM) + ", as on the day.",
				"Hang a full 1.5 litre bottle, about " + measure.FormatMass(fullBottleG, d.Units) +
					", at the middle and measure how far the bar dips.",
				"Take it off and measure the dip that remains: that is play in the joints.",
				"If it dips more than " + d.SmallMM(k.WidthMM/d.Figures.Get("bar/useless")) +
					", do not use it at this width. Write span, weight and both dips into the kit: the plan then checks your load.",
			}
			c.takes(d.together(Home, "test-bar", 1))
			d.hands(c, d.pair(), d.pair())
			c.care(lifting)
		}
	},
}
