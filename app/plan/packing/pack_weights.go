package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// weightRule packs a weight for every bunch of helium balloons.
var weightRule = rule{
	family: "helium/weights",
	bag:    "bag/helium",
	one:    "Balloon weights",
	unit:   "weights",
	kit:    true,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		bunches, most := 0, 0.0
		for _, c := range d.Pieces {
			if c.Helium {
				bunches += c.Make.Count
				most = max(most, d.BallastG(c))
			}
		}
		reason := "one for each bouquet"
		if most > 0 {
			reason += ", " + phrase.Number(figures.RoundUpTo(most, 5)) + " g or more each"
		}
		return bunches, reason, &figures.Source{Text: "one and a half times what the balloons lift", Mark: figures.CommonPractice}
	},
}
