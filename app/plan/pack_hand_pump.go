package plan

// handPumpRule packs hand pumps: one for each pair on site where there is no power, else one in case it fails.
var handPumpRule = packRule{family: "tool/hand-pump", bag: "bag/air", one: "Hand pump", kit: true,
	need: func(d *Rig) (int, string, *Source) {
		switch {
		case !d.anyBalloon():
			return 0, "", nil
		case d.job.Brief.Power == "none":
			return (len(d.site) + 1) / 2, "there is no power at the venue", &usual
		}
		return 1, "in case the power fails", &usual
	}}
