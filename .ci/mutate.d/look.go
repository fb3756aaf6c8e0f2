package main

// lookBreaks are breaks of what a person sees and where the hand stays.
var lookBreaks = []mutation{
	{"a form is named after its act, so that the focus is lost", "pwa/view/action.go",
		`orElse(turns[a.Act], a.Act) + "-"`, `a.Act + "-"`, by("./pwa/view", "TestActionsOfAPageKeepTheirIdentity")},
	{"a control that is gone hands the focus to nobody", "static/js/focus.js",
		"(toast ? afterToast(trail) : successor(trail)) || heading();", "null;",
		by("./cmd/garlandry", "TestFocusStaysWhereTheHandIs")},
	{"a count that changed is not said", "static/js/main.js", "speak(saying() === said ? null : saying())", "speak(null)",
		by("./cmd/garlandry", "TestFocusStaysWhereTheHandIs")},
}
