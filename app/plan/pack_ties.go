package plan

// tieRule packs the 260s used as ties, with spares.
var tieRule = packRule{family: "tie/260", bag: "bag/balloons", one: "260s for ties", unit: "balloons",
	need: func(d *Rig) (int, string, *Source) {
		n := d.withSpares(d.Ties, d.breakagePct())
		return n, count(d.Ties, "tie") + " in the pieces, " + count(n-d.Ties, "spare"), &usual
	}}
