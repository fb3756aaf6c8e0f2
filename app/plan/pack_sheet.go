package plan

// sheetRule packs a floor sheet: balloons that lie on a rough or dirty floor burst.
func sheetRule() packRule {
	return thing("tool/floor-sheet", "bag/loose", "Floor sheet", "", true, func(d *draft) (int, string, Source) {
		if !d.anyBalloon() {
			return 0, "", Source{}
		}
		switch d.job.Brief.Floor {
		case "grass", "gravel":
			return 2, "balloons burst on " + d.job.Brief.Floor, usual()
		}
		return 1, "keeps balloons off the floor and the floor clean", usual()
	})
}
