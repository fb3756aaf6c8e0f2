package main

var (
	inTabs    = []string{"./pwa/device -run ^(TestBusyTabsLoseNothing|TestATurnKeepsOthersWaiting|TestTheSamePostFromTwoTabsCountsOnce)$"}
	inCommits = []string{"./pwa/device -run ^TestAStepUponWhatWasNeverWrittenIsStale$"}
	inNode    = []string{"./pwa/device -run TestContractInNode|TestCommitsAreStrict"}
	inBrowser = []string{"./cmd/garlandry -run TestBrowserFormBeforeTheCore|TestBrowserJournalOfTwoTabs"}
)

var deviceBreaks = []mutation{
	{"every commit has the same token", "pwa/device/commit.go", "b := Batch{Token: c.NewID()", "b := Batch{Token: \"token\"", inTabs},
	{"a step upon what was never written is written", "pwa/device/commit.go", "rev := c.base.rev\n", "rev := step.If\n", inCommits},
	{"other tabs are not told", "pwa/device/commit.go", "\t\tc.Page.TellOthers()\n", "", inTabs},
}

var scriptBreaks = []mutation{
	{"durability strict -> relaxed", "static/js/disk.js", "{ durability: 'strict' }", "{ durability: 'relaxed' }", inNode},
	{"another tab's generation taken for mine", "static/js/disk.js", "if (last.result === token) return;", "if ((generation.result || '') === next) return;", inNode},
	{"a stale tab's commit is written", "static/js/disk.js", "if ((generation.result || '') !== expected) {", "if (generation.result === 'never') {", inNode},
}
