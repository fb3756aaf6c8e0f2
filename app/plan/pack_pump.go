package plan

// pumpRule packs an electric pump if the kit names none and there is power.
var pumpRule = packRule{family: "tool/pump", bag: "bag/air", one: "Electric pump", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		if d.kitOf("pump") > 0 || d.job.Brief.Power == "none" || !d.anyBalloon() {
			return 0, "", nil
		}
		return 1, "your kit names no pump; one serves one person filling", &usual
	}}
