package task

import "garlandry/app/plan/phrase"

// shopRule adds the card for getting the balloons together.
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
			"Lay out the balloons by size and colour: " + phrase.Count(total, "balloon") + " with spares.",
			"Blow up one of each to check its colour and size.",
			"Buy or order now what is missing: a late delivery cannot be hurried.",
		}
		c.takes(d.effort(Home, "shop", 1))
		c.care(choking, allergy)
	},
}
