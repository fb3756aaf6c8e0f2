package plan

// tapeRule packs cloth tape and clear tape.
func tapeRule() packRule {
	return thing("supply/tape", "bag/fixings", "Tape, cloth and clear", "rolls", false, func(d *draft) (int, string, Source) {
		if !d.anyBalloon() {
			return 0, "", Source{}
		}
		if d.job.Brief.Fixing == "nothing" {
			return 2, "for bags, cables and labels: nothing may be stuck to walls here", usual()
		}
		return 2, "for ends, cables and labels", usual()
	})
}
