package plan

// packRuleCard is packing the bags.
func packRuleCard() cardRule {
	r := cardRule{family: "pack", place: Load, title: always("Pack the bags")}
	r.cards = func(d *draft) []Card {
		lines := 0
		for _, b := range d.plan.Pack {
			lines += len(b.Lines)
		}
		if lines == 0 {
			return nil
		}
		c := r.card("", "")
		c.Steps = []string{
			"Go through the pack list bag by bag and tick each line as it goes in.",
			"Label every bag on the outside.",
			"Walk through the rooms once more: nothing stays on the kitchen table.",
		}
		c.takes(d.effort(Load, "pack-line", float64(lines)))
		d.hands(&c, 1, d.most())
		c.After = d.lastKeys(Home)
		return []Card{c}
	}
	return r
}
