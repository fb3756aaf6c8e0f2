package task

import "garlandry/app/plan/phrase"

// shopRule adds the cards for getting the balloons together.
var shopRule = rule{
	family: FamilyShop,
	place:  Home,
	title:  "Get the balloons together",
	cards: func(d *draft, r *rule) {
		if !d.AnyBalloon() {
			return
		}
		c := r.card(d, "", "")
		total := 0
		for _, b := range d.Balloons {
			total += b.Buy
		}
		c.Steps = []string{
			"Lay out the balloons of the pack list by size and colour: " + phrase.Count(total, "balloon") + " with spares.",
			"Blow up one of each to see that colour and size are what was promised.",
			"Order or buy what is missing now; a colour that is late cannot be hurried.",
		}
		c.takes(d.effort(Home, "shop", 1))
		c.care(choking, allergy)
	},
}
