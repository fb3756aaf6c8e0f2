package plan

// shineRule packs shine spray.
func shineRule() packRule {
	return thing("supply/shine-spray", "bag/fixings", "Shine spray", "cans", false, func(d *draft) (int, string, Source) {
		each := d.figures.row("supply/shine")
		return up(d.baseMM() / each.Value), "one can for " + d.length(each.Value) + " of base; there are " + d.length(d.baseMM()), each.Source
	})
}
