package packing

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// binBagRule packs bin bags for the take-down.
var binBagRule = rule{family: "supply/bin-bags", bag: "bag/clear", one: "Bin bags", unit: "bags",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row("supply/bin-bag")
		n := d.Sum(func(c *count.Counted) int { return c.Balloons })
		if n == 0 {
			return 0, "", nil
		}
		return 1 + figures.RoundUp(
				float64(n)/each.Value,
			), "one for every " + phrase.Number(each.Value) + " of " + phrase.Count(
				n,
				"balloon",
			) + " when they come down, one for wrappings", &each.Source
	}}
