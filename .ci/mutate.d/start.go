package main

var startBreaks = []mutation{
	{"a unit at the end holds for the height alone", "calc/measure/pair.go", "sides[0].borrow(&sides[1])\n", "",
		by("./calc/measure", "TestParsePairReadsWhatPeopleWrite")},
	{"a pair in the width leaves the height", "pwa/form/pair.go", "v.Set(high, measure.ExactLength(height, units))",
		"_ = height",
		by("./pwa/form", "TestAWidthAndAHeightInOneField")},
}
