package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// leadRule packs an extension lead unless there is no power at all.
var leadRule = rule{family: "tool/lead", bag: "bag/air", one: "Extension lead", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		switch {
		case !d.AnyBalloon() || d.Job.Brief.Power == "none":
			return 0, "", nil
		case d.Job.Brief.Power == "far":
			return 2, "the socket is far away; tape the lead down where people walk", &figures.Usual
		}
		return 1, "the socket is seldom where the piece is", &figures.Usual
	}}
