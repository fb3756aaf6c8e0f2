package plan

// tapeRule packs cloth tape and clear tape.
var tapeRule = packRule{
	family: "supply/tape",
	bag:    "bag/fixings",
	one:    "Tape, cloth and clear",
	unit:   "rolls",
	with:   (*Rig).anyBalloon,
	need: func(d *Rig) (int, string, *Source) {
		if d.job.Brief.Fixing == "nothing" {
			return 2, "for bags, cables and labels: nothing may be stuck to walls here", &usual
		}
		return 2, "for ends, cables and labels", &usual
	},
}
