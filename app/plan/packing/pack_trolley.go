package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// trolleyRule packs a trolley.
var trolleyRule = rule{family: "tool/trolley", bag: "bag/loose", one: "Trolley", kit: true, with: (*rigging.Rig).AnyPiece,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		if way := d.Job.Brief.Parking; way != "" {
			return 1, "the way in: " + way, &figures.Usual
		}
		return 1, "the car seldom stands at the door", &figures.Usual
	}}
