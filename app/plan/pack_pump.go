package plan

// pumpRule packs an electric pump if the kit names none and there is power.
func pumpRule() packRule {
	return thing("tool/pump", "bag/air", "Electric pump", "", true, func(d *draft) (int, string, Source) {
		if d.kitOf("pump") > 0 || d.job.Brief.Power == "none" || !d.anyBalloon() {
			return 0, "", Source{}
		}
		return 1, "your kit names no pump; one serves one person filling", usual()
	})
}
