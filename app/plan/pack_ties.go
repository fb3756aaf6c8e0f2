package plan

// tieRule packs the 260s used as ties, with spares.
func tieRule() packRule {
	return thing("tie/260", "bag/balloons", "260s for ties", "balloons", false, func(d *draft) (int, string, Source) {
		n := d.withSpares(d.plan.Ties, d.breakagePct())
		return n, count(d.plan.Ties, "tie") + " in the pieces, " + count(n-d.plan.Ties, "spare"), usual()
	})
}
