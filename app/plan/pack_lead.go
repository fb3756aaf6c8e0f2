package plan

// leadRule packs an extension lead unless there is no power at all.
var leadRule = packRule{family: "tool/lead", bag: "bag/air", one: "Extension lead", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		switch {
		case !d.anyBalloon() || d.job.Brief.Power == "none":
			return 0, "", nil
		case d.job.Brief.Power == "far":
			return 2, "the socket is far away; tape the lead down where people walk", &usual
		}
		return 1, "the socket is seldom where the piece is", &usual
	}}
