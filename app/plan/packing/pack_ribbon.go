package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// ribbonRule packs ribbon for what floats.
var ribbonRule = rule{family: "helium/ribbon", bag: "bag/helium", one: "Ribbon that does not conduct", unit: "m",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		each := d.Figures.Row("supply/ribbon")
		n := d.Floating()
		return figures.RoundUp(
			float64(float64(n) * each.Value),
		), phrase.Number(each.Value) + " m for each of " + phrase.Count(n, "floating balloon"), &each.Source
	}}
