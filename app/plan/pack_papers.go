package plan

// papersRule packs the printed plan: the one thing that needs no battery.
func papersRule() packRule {
	return thing("paper/plan", "bag/safety", "Printed plan", "", false, func(d *draft) (int, string, Source) {
		if len(d.pieces) == 0 {
			return 0, "", Source{}
		}
		return 1, "works without a battery", usual()
	})
}
