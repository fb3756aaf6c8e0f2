package main

// lookBreaks are breaks of what a person sees and where the hand stays.
var lookBreaks = []mutation{
	{"a form is named after its act, so that the focus is lost", "pwa/view/action.go",
		`orElse(turns[a.Act], a.Act) + "-"`, `a.Act + "-"`, by("./pwa/view", "TestActionsOfAPageKeepTheirIdentity")},
	{"a control that is gone hands the focus to nobody", "static/js/focus.js",
		"(toast ? afterToast(trail) : successor(trail)) || heading();", "null;",
		seen("./cmd/garlandry", "TestFocusStaysWhereTheHandIs")},
	{"a count that changed is not said", "static/js/main.js", "speak(saying() === said ? null : saying())", "speak(null)",
		seen("./cmd/garlandry", "TestFocusStaysWhereTheHandIs")},
	{"controls in focus stand under the dock", "static/css/app.css", "scroll-padding:16px 0 104px", "scroll-padding:0",
		seen("./pwa/gallery", "TestEveryPageOnSmallScreens")},
	{"large letters keep the dock over the page", "static/css/narrow.css", ".dock{display:contents}", "",
		seen("./pwa/gallery", "TestEveryPageOnSmallScreens")},
	{"long help stands under its field", "pwa/view/form.go", "const shortHelp = 8", "const shortHelp = 80",
		by("./pwa/gallery", "TestHelpUnderAFieldIsShort")},
	{"inputs are printed", "static/css/print.css", ":is(input,select,textarea,.field,.inline):not(.edit *),", "",
		seen("./pwa/gallery", "TestPaperHasNoButtons")},
}
