package plan

// binBagRule packs bin bags for the take-down.
var binBagRule = packRule{family: "supply/bin-bags", bag: "bag/clear", one: "Bin bags", unit: "bags",
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row("supply/bin-bag")
		n := d.sum(func(c *counted) int { return c.Balloons })
		if n == 0 {
			return 0, "", nil
		}
		return 1 + up(
				float64(n)/each.Value,
			), "one for every " + number(each.Value) + " of " + count(
				n,
				"balloon",
			) + " when they come down, one for wrappings", &each.Source
	}}
