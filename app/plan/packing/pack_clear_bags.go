package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// clearBagRule packs big clear bags for what is made at home, and a few more for the accents.
var clearBagRule = rule{
	family: "supply/clear-bags",
	bag:    "bag/made",
	one:    "Big clear bags and labels",
	unit:   "bags",
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		room := d.Figures.Row("bag/clusters")
		n := 0
		for _, c := range d.Pieces {
			n += bagsFor(d, c)
		}
		return n, "what is made at home travels in them, each labelled with its piece and section", &room.Source
	},
}
