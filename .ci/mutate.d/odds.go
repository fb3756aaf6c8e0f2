package main

var oddsBreaks = []mutation{
	{"coulds are scheduled before musts", "calc/crew/decoder.go", "a != b && side == 0 {", "a != b && side == 2 {",
		by("./calc/crew", "TestNothingKeepsMustsBack")},
	{"the plan of a smaller job is not kept", "calc/crew/smaller.go", "if most.below(least) {",
		"if i == 0 && most.below(least) {", by("./calc/crew", "TestMoreIsNeverWorse")},
	{"a plan is carried to lesser skill", "calc/crew/simulate.go", "if people[i].Practised && !m.job",
		"if false && !m.job", by("./calc/crew", "TestAPlanIsNotCarriedToLesserSkill")},
	{"a changed job keeps the earlier forecast", "app/forecast/forecast.go", "if !same(&old.job.People[i], &f.job",
		"if false && !same(&old.job.People[i], &f.job", by("./app/forecast", "TestAChangedJobIsPlannedAnewAtOnce")},
	{"hopeless odds tell plans apart", "calc/crew/odds.go", "return max(odds, Hopeless)", "return max(odds, 0)",
		by("./app/forecast", "TestEverybodyWorksOnAHopelessDay")},
	{"shine goes on without anything that hangs", "app/forecast/blocked.go", "return f.followsAll(t.Key, gone)",
		"return false", by("./app/forecast", "TestShineWaitsForSomethingThatHangs")},
	{"a must that nobody can do counts as done", "app/forecast/forecast.go", "f.Musts = 0", "f.Musts = 1",
		by("./app/forecast", "TestACardThatNobodyCanDoDoesNotSilenceTheClock")},
	{"one pair of hands is as quick as two", "app/plan/task/alone.go", "c.MinutesBy[skill] = minutes * times",
		"c.MinutesBy[skill] = minutes", by("./app/forecast", "TestOnePairOfHandsIsAChoice")},
	{"of fixes that are not enough, the cheapest is the best", "app/forecast/fix.go", "case f.Reaches:",
		"case f.Reaches || !other.Reaches:", by("./app/forecast", "TestTheOrderOfFixesIsStrict")},
}
