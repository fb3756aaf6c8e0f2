package main

// transportBreaks break which load brings what, who fetches it, and how long carrying in takes.
var transportBreaks = []mutation{
	{"a piece does not wait for its later loads", "app/plan/task/card_fix.go", "d.arrivals(p)...",
		"d.arrivals(p)[:0]...", by("./app/plan", "TestAPieceWaitsForAllItsLoads")},
	{"what no car takes is put up all the same", "app/plan/count/carriage.go",
		"return c.OnSite || c.Carried == InClusters",
		"return c.OnSite", by("./app/plan", "TestWhatTheCarDoesNotTakeIsMadeAtTheVenue")},
	{"beginners fetch loads", "app/plan/transport/cars.go",
		"m.Skill == string(figures.Practised)", `m.Skill != "" && figures.Practised != ""`,
		by("./app/plan", "TestWhoFetchesALoad")},
	{"a card of a car is done by anybody", "app/forecast/network.go",
		"t.By, t.From = card.By, f.heliumFrom(p, card)", "t.From = f.heliumFrom(p, card)",
		by("./app/forecast", "TestAPieceGoesUpAfterItsLastLoad")},
	{"further loads are fetched however long they take", "app/plan/transport/worth.go",
		"float64(float64(rounds-1)*w.trip) +",
		"float64(0*float64(rounds-1)*w.trip) +", by("./app/forecast", "TestALargerCarNeverMakesThePlanWorse")},
	{"what the user wants brought is left behind", "app/plan/transport/worth.go",
		"picked == PickBrought && !meant.OnSite",
		`picked == "" && !meant.OnSite`, by("./app/plan", "TestFurtherLoadsAreWeighedAgainstTheVenue")},
	{"carrying in further loads takes no time", "app/plan/transport/worth.go",
		"float64(float64(m.Rounds)*w.trip)+it.in,", "float64(float64(m.Rounds)*w.trip)+0*it.in,",
		by("./app/plan", "TestTheFurtherLoadsTakeWhatTheirCardsTake")},
	{"table pieces come apart on the way", "app/plan/transport/goods.go", "add(broughtOf(c, c.Make.Count), c.Make.One,",
		"add(c.Balloons, c.Make.One,", by("./app/plan", "TestWhatIsTiedTravelsWhole")},
	{"a lift takes no time", "app/plan/task/way_in.go", "plus(d.stairs(things)).plus(lift)", "plus(d.stairs(things))",
		by("./app/plan", "TestUnloadingFollowsFromTheWayIn")},
}
