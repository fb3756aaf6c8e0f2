package plan

// shineRule packs shine spray.
var shineRule = packRule{family: "supply/shine-spray", bag: "bag/fixings", one: "Shine spray", unit: "cans",
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row("supply/shine")
		return up(
			d.baseMM() / each.Value,
		), "one can for " + d.length(each.Value) + " of base; there are " + d.length(d.baseMM()), &each.Source
	}}
