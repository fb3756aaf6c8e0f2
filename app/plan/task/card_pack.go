package task

// packRule adds the card for packing the bags.
var packRule = rule{family: FamilyPack, place: Load, title: "Pack the bags", cards: func(d *draft, r *rule) {
	lines := 0
	for _, b := range d.pack {
		lines += len(b.Lines)
	}
	if lines == 0 || d.transport.None {
		return
	}
	c := r.card(d, "", "")
	c.Steps = []string{
		"Go through the pack list bag by bag and tick each line as it goes in.",
		"Label every bag on the outside.",
		"Check every room again: leave nothing on the kitchen table.",
	}
	c.takes(d.effort(Load, "pack-line", float64(lines)))
	d.hands(c, 1, d.most())
	c.After = d.last(Home)
}}
