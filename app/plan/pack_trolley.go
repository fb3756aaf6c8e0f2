package plan

// trolleyRule packs a trolley.
var trolleyRule = packRule{family: "tool/trolley", bag: "bag/loose", one: "Trolley", kit: true, with: (*Rig).anyPiece,
	need: func(d *Rig) (int, string, *Source) {
		if way := d.job.Brief.Parking; way != "" {
			return 1, "the way in: " + way, &usual
		}
		return 1, "the car seldom stands at the door", &usual
	}}
