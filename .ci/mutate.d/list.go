package main

// list returns the breaks, floor by floor.
func list() []mutation {
	var all []mutation
	for _, part := range [][]mutation{jobBreaks, syncBreaks, storeBreaks, serveBreaks, deviceBreaks, scriptBreaks,
		calcBreaks, markBreaks, oddsBreaks, planBreaks, transportBreaks, learnBreaks, forecastBreaks, pageBreaks,
		startBreaks, lookBreaks, patternBreaks, layerBreaks, photoBreaks, handBreaks,
		roomBreaks, clientBreaks} {
		all = append(all, part...)
	}
	return all
}

var jobBreaks = []mutation{
	{"tie order of stamps: devices turned", "app/job/op.go",
		"cmp.Compare(s.Device, o.Device)", "cmp.Compare(o.Device, s.Device)",
		by("./app/job", "TestTieOrderOfStamps")},
	{"tie order of stamps: numbers turned", "app/job/op.go",
		"cmp.Compare(s.Number, o.Number)", "cmp.Compare(o.Number, s.Number)",
		by("./app/job", "TestTieOrderOfStamps")},
	{"tie order of stamps: ids turned", "app/job/op.go",
		"cmp.Compare(s.ID, o.ID)", "cmp.Compare(o.ID, s.ID)",
		by("./app/job", "TestTieOrderOfStamps")},
	{"what was taken back counts", "app/job/state.go", "if _, undone := t.Undone[e.ID]; !undone {",
		"if _, undone := t.Undone[e.ID]; !undone || undone {", by("./app/job", "TestUndoneTwiceCountsOnce")},
	{"a helper may set any field", "app/job/role.go", "if r == Helper && kind == Set {",
		"if r == Helper && kind == Undo {", by("./app/job", "TestRoles")},
	{"prices go into the helpers' log", "app/job/role.go", `strings.HasPrefix(entity, "own/")`,
		`strings.HasPrefix(entity, "own/contact")`, by("./pwa/serve", "TestPricesReachNoHelper")},
	{"no depth check", "app/job/check.go", "if err := ScanJSON(value, MaxDepth); err != nil {",
		"if err := ScanJSON(value, 1000*MaxDepth); err != nil {", by("./app/job", "TestCheckRefusesUnsafeOperations")},
	{"an operation of any size", "app/job/check.go", "if len(value) > MaxOpBytes {", "if len(value) > 1000*MaxOpBytes {",
		by("./app/job", "TestInvalidOperations")},
}
