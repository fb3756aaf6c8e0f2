package plan

// clearBagRule packs big clear bags for what is made at home, and a few more for the accents.
var clearBagRule = packRule{
	family: "supply/clear-bags",
	bag:    "bag/made",
	one:    "Big clear bags and labels",
	unit:   "bags",
	need: func(d *Rig) (int, string, *Source) {
		room := d.figures.row("bag/clusters")
		n := 0
		for _, c := range d.pieces {
			n += bagsFor(d, c)
		}
		return n, "what is made at home travels in them, each labelled with its piece and section", &room.Source
	},
}
