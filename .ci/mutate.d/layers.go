package main

var layerBreaks = []mutation{
	{"a 260 for each cluster of a pair", "app/plan/count/layer.go", "	case \"each\":\n	default:",
		"	case \"each\", \"pair\":\n	default:", by("./app/plan", "TestTiesOfALayer")},
	{"accents of today count by the layers' figure", "app/plan/count/layer.go",
		`d.onLines(c, &c.Accent, how, source, "ties/accent")`, `d.onLines(c, &c.Accent, how, source, "ties/layer")`,
		by("./app/plan", "TestTiesOfAccents")},
	{"a layer covers the whole line", "app/plan/count/layer.go", "long := c.stretchMM(l.FromPct, l.ToPct)",
		"long := c.stretchMM(0, 100)", by("./app/plan", "TestALayerCoversItsStretch")},
	{"the plan's fingerprint forgets layers", "app/plan/cache.go", "j.Kit, j.Pieces, j.Layers,", "j.Kit, j.Pieces,",
		by("./app/plan", "TestDesignFingerprintCoversEveryField")},
	{"layers outlive their piece", "app/job/job.go", "if _, known := j.Piece(all[i].Piece); known {", "if all[i].ID != \"\" {",
		by("./app/plan", "TestALayerGoesWithItsPiece")},
	{"bases meet without a tie", "app/plan/count/several.go", "float64(number-1) * extra.Value", "float64(number-2) * extra.Value",
		by("./app/plan", "TestTwoBases")},
	{"bases fill the whole line", "calc/picture/strung.go", "float64(bases[i].LengthMM*squeeze)",
		"float64(lengthMM/float64(len(bases))*squeeze)", by("./app/plan/look", "TestTwoBasesLieOneAfterAnother")},
	{"the outer side is inside", "app/plan/look/of.go", "return picture.Outer", "return picture.Inner",
		by("./app/plan/look", "TestALayerSitsWhereItSays")},
	{"a lead changes no layers", "app/job/role.go", `noun == "piece" || noun == "layer" ||`, `noun == "piece" ||`,
		by("./app/job", "TestRoles")},
}
