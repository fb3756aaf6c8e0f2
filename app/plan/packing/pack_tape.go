package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// tapeRule packs cloth tape and clear tape.
var tapeRule = rule{
	family: "supply/tape",
	bag:    "bag/fixings",
	one:    "Tape, cloth and clear",
	unit:   "rolls",
	with:   (*rigging.Rig).AnyBalloon,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		if d.Job.Brief.Fixing == "nothing" {
			return 2, "for bags, cables and labels: nothing may be stuck to walls here", &figures.Usual
		}
		return 2, "for ends, cables and labels", &figures.Usual
	},
}
