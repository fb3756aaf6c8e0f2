package packing

import (
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// sheetRule packs a floor sheet: balloons that lie on a rough or dirty floor burst.
var sheetRule = rule{
	family: "tool/floor-sheet",
	bag:    "bag/loose",
	one:    "Floor sheet",
	kit:    true,
	with:   (*rigging.Rig).AnyBalloon,
	need: func(d *rigging.Rig) (int, string, *figures.Source) {
		switch d.Job.Brief.Floor {
		case "grass", "gravel":
			return 2, "balloons burst on " + d.Job.Brief.Floor, &figures.Usual
		}
		return 1, "keeps balloons off the floor and the floor clean", &figures.Usual
	},
}
