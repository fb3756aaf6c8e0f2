package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// pumpRule packs an electric pump if the kit names none and there is power.
var pumpRule = rule{family: "tool/pump", bag: "bag/air", one: "Electric pump", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		if d.KitOf("pump") > 0 || d.Job.Brief.Power == "none" || !d.AnyBalloon() {
			return 0, "", nil
		}
		return 1, "your kit names no pump; one serves one person filling", &figures.Usual
	}}
