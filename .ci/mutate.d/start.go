package main

var startBreaks = []mutation{
	{"a unit at the end holds for the height alone", "calc/measure/pair.go", "sides[0].borrow(&sides[1])\n", "",
		by("./calc/measure", "TestParsePairReadsWhatPeopleWrite")},
	{"a pair in the width leaves the height", "pwa/form/pair.go", "v.Set(high, measure.ExactLength(height, units))",
		"_ = height",
		by("./pwa/form", "TestAWidthAndAHeightInOneField")},
	{"a new job's access stays when the doors move", "pwa/page/new_follow.go", "v.Set(\"in\", access)", "_ = access",
		by("./pwa/page", "TestANewJobFollows")},
	{"a day stands beside the title that ends with it", "pwa/view/jobs.go",
		"if !known || !strings.HasSuffix(", "if known || !strings.HasSuffix(",
		by("./pwa/page", "TestADayStandsOnceBesideTheTitle")},
	{"a picture's size is not built without its tick", "pwa/page/new_follow.go",
		"v[view.StartBuild] = append(v[view.StartBuild], p.Key)", "_ = key", by("./pwa/page", "TestANewJobFollows")},
	{"an edited recipe gives way to the builder", "pwa/form/recipe.go", "|| v.Get(name) != v.Get(name+RecipeShown) {", "{",
		by("./pwa/form", "TestARecipeIsTappedTogether")},
}
