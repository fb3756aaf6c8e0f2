package main

// learnBreaks break what is learnt from taps, and that every card takes time.
var learnBreaks = []mutation{
	{"counts within a minute are work", "app/forecast/timed.go", "oneMomentMS = minuteMS", "oneMomentMS = 0*minuteMS",
		by("./app/forecast", "TestWhichTimesAreKnown")},
	{"counts that come too fast are work", "app/forecast/timed.go", "tooFast     = 4 ", "tooFast     = 4000 ",
		by("./app/forecast", "TestWhichTimesAreKnown")},
	{"a break is work", "app/forecast/timed.go", "tooSlow     = 3 ", "tooSlow     = 300 ",
		by("./app/forecast", "TestWhichTimesAreKnown")},
	{"one pause tells the pace", "app/forecast/timed.go", "leastSpans  = 2 ", "leastSpans  = 1 ",
		by("./app/forecast", "TestWhichTimesAreKnown")},
	{"a tenth of a batch tells the pace", "app/forecast/timed.go", "leastTimed  = 0.25", "leastTimed  = 0.1",
		by("./app/forecast", "TestWhichTimesAreKnown")},
	{"rates go ten times beyond the table", "calc/crew/learn.go", "const Furthest = 3", "const Furthest = 10",
		by("./calc/crew", "TestNoLearntRateGoesBeyondThreeTimes")},
	{"the last of a card takes no time", "calc/crew/left.go", "const leastLeft = 0.1", "const leastLeft = 0",
		by("./calc/crew", "TestTheLastOfATaskIsNotNothing")},
	{"a card may take no time", "app/plan/task/card.go", "const LeastMinutes = 0.1", "const LeastMinutes = 0",
		by("./app/forecast", "TestNoCardTakesNoTimeOrNobody")},
	{"a row of minutes may be 0", "app/plan/figures/table_time.go", "minutes, least, 240,", "minutes, 0*least, 240,",
		by("./app/forecast", "TestOwnMinutesOfNothingCountAsATenth")},
}
