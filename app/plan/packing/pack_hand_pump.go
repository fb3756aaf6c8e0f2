package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// handPumpRule packs hand pumps: one for each pair on site where there is no power, else one in case it fails.
var handPumpRule = rule{family: "tool/hand-pump", bag: "bag/air", one: "Hand pump", kit: true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		switch {
		case !d.AnyBalloon():
			return 0, "", nil
		case d.Job.Brief.Power == "none":
			return (len(d.Site) + 1) / 2, "there is no power at the venue", &figures.Usual
		}
		return 1, "in case the power fails", &figures.Usual
	}}
