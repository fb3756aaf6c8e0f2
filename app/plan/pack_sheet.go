package plan

// sheetRule packs a floor sheet: balloons that lie on a rough or dirty floor burst.
var sheetRule = packRule{
	family: "tool/floor-sheet",
	bag:    "bag/loose",
	one:    "Floor sheet",
	kit:    true,
	with:   (*Rig).anyBalloon,
	need: func(d *Rig) (int, string, *Source) {
		switch d.job.Brief.Floor {
		case "grass", "gravel":
			return 2, "balloons burst on " + d.job.Brief.Floor, &usual
		}
		return 1, "keeps balloons off the floor and the floor clean", &usual
	},
}
