package plan

// weightRule packs a weight for every bunch of helium balloons.
var weightRule = packRule{
	family: "helium/weights",
	bag:    "bag/helium",
	one:    "Balloon weights",
	unit:   "weights",
	kit:    true,
	need: func(d *Rig) (int, string, *Source) {
		bunches, most := 0, 0.0
		for _, c := range d.pieces {
			if c.helium {
				bunches += c.make.count
				most = max(most, d.ballastG(c))
			}
		}
		reason := "one for each bouquet"
		if most > 0 {
			reason += ", " + number(roundTo(most, 5)) + " g or more each"
		}
		return bunches, reason, &Source{Text: "one and a half times what the balloons lift", Mark: CommonPractice}
	},
}
