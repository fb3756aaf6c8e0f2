package plan

// ribbonRule packs ribbon for what floats.
var ribbonRule = packRule{family: "helium/ribbon", bag: "bag/helium", one: "Ribbon that does not conduct", unit: "m",
	need: func(d *Rig) (int, string, *Source) {
		each := d.figures.row("supply/ribbon")
		n := d.floating()
		return up(
			float64(float64(n) * each.Value),
		), number(each.Value) + " m for each of " + count(n, "floating balloon"), &each.Source
	}}
