package plan

// shopRule is getting the balloons together.
func shopRule() cardRule {
	r := cardRule{family: "shop", place: Home, title: always("Get the balloons together")}
	r.cards = func(d *draft) []Card {
		if !d.anyBalloon() {
			return nil
		}
		c := r.card("", "")
		total := 0
		for _, b := range d.plan.Balloons {
			total += b.Buy
		}
		c.Steps = []string{
			"Lay out the balloons of the pack list by size and colour: " + count(total, "balloon") + " with spares.",
			"Blow up one of each to see that colour and size are what was promised.",
			"Order or buy what is missing now; a colour that is late cannot be hurried.",
		}
		c.takes(d.effort(Home, "shop", 1))
		c.Cautions = []Caution{choking(), allergy()}
		return []Card{c}
	}
	return r
}
