package main

var (
	inDevice  = []string{"./pwa/device"}
	inNode    = []string{"./pwa/device -run TestContractInNode|TestCommitsAreStrict"}
	inBrowser = []string{"./cmd/garlandry -run TestBrowserFormBeforeTheCore|TestBrowserJournalOfTwoTabs"}
)

var deviceBreaks = []mutation{
	{"every commit has the same token", "pwa/device/commit.go", "b := Batch{Token: c.NewID()", "b := Batch{Token: \"token\"", inDevice},
	{"a step upon what was never written is written", "pwa/device/commit.go", "rev := c.base.rev\n", "rev := step.If\n", inDevice},
	{"other tabs are not told", "pwa/device/commit.go", "\t\tc.Page.TellOthers()\n", "", inDevice},
}

var scriptBreaks = []mutation{
	{"durability strict -> relaxed", "static/js/disk.js", "{ durability: 'strict' }", "{ durability: 'relaxed' }", inNode},
	{"another tab's generation taken for mine", "static/js/disk.js", "if (last.result === token) return;", "if ((generation.result || '') === next) return;", inNode},
	{"a stale tab's commit is written", "static/js/disk.js", "if ((generation.result || '') !== expected) {", "if (generation.result === 'never') {", inNode},
}
