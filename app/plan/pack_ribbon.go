package plan

// ribbonRule packs ribbon for what floats.
func ribbonRule() packRule {
	return thing("helium/ribbon", "bag/helium", "Ribbon that does not conduct", "m", false, func(d *draft) (int, string, Source) {
		each := d.figures.row("supply/ribbon")
		n := d.floating()
		return up(float64(float64(n) * each.Value)), number(each.Value) + " m for each of " + count(n, "floating balloon"), each.Source
	})
}
