package main

var oddsBreaks = []mutation{
	{"coulds are scheduled before musts", "calc/crew/decoder.go", "a != b && side == 0 {", "a != b && side == 2 {",
		by("./calc/crew", "TestNothingKeepsMustsBack")},
	{"the plan of a smaller job is not kept", "calc/crew/smaller.go", "!odds.asGood(then) && then.better(odds) {",
		"!odds.asGood(then) && then.better(odds) && false {", by("./calc/crew", "TestMoreIsNeverWorse")},
	{"a must that nobody can do counts as done", "app/forecast/forecast.go", "f.Musts = 0", "f.Musts = 1",
		by("./app/forecast", "TestACardThatNobodyCanDoDoesNotSilenceTheClock")},
	{"one pair of hands is as quick as two", "app/plan/task/alone.go", "c.MinutesBy[skill] = minutes * times",
		"c.MinutesBy[skill] = minutes", by("./app/forecast", "TestOnePairOfHandsIsAChoice")},
}
