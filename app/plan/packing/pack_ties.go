package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// tieRule packs the 260s used as ties, with spares.
var tieRule = rule{family: "tie/260", bag: "bag/balloons", one: "260s for ties", unit: "balloons",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		n := d.WithSpares(d.Ties, d.BreakagePct())
		return n, phrase.Count(d.Ties, "tie") + " in the pieces, " + phrase.Count(n-d.Ties, "spare"), &figures.Usual
	}}
