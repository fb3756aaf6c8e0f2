package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// shineRule packs shine spray.
var shineRule = rule{family: "supply/shine-spray", bag: "bag/fixings", one: "Shine spray", unit: "cans",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row("supply/shine")
		return figures.RoundUp(
			d.BaseMM() / each.Value,
		), "one can for " + d.Length(each.Value) + " of base; there are " + d.Length(d.BaseMM()), &each.Source
	}}
