package main

var oddsBreaks = []mutation{
	{"coulds are scheduled before musts", "calc/crew/decoder.go", "a != b && side == 0 {", "a != b && side == 2 {",
		by("./calc/crew", "TestNothingKeepsMustsBack")},
	{"the plan of a smaller job is not kept", "calc/crew/smaller.go", "!odds.asGood(then) && then.better(odds) {",
		"!odds.asGood(then) && then.better(odds) && false {", by("./calc/crew", "TestMoreIsNeverWorse")},
}
