package main

var inNode = test{"./pwa/device", "TestContractInNode|TestCommitsAreStrict"}

var deviceBreaks = []mutation{
	{"every commit has the same token", "pwa/device/commit.go", "b := Batch{Token: c.NewID()",
		"b := Batch{Token: \"token\"", by("./pwa/device", "TestBusyTabsLoseNothing")},
	{"a step upon what was never written is written", "pwa/device/commit.go", "rev := c.base.rev\n", "rev := step.If\n",
		by("./pwa/device", "TestAStepOnAnUnwrittenStepIsStale")},
	{"a request from before a sign-out starts a pause", "pwa/device/exchange.go", "c.overtaken = maps.Clone(c.inFlight)",
		"_ = maps.Clone(c.inFlight)", by("./pwa/device", "TestSigningOutWhileARequestHangs")},
	{"other tabs are not told", "pwa/device/commit.go", "\t\tc.Page.TellOthers()\n", "",
		by("./pwa/device", "TestBusyTabsLoseNothing")},
	{"what a cleared storage lacks is not merged", "pwa/device/commit.go", "if o.before != nil && c.rescuing {",
		"if o.before != nil && c.rescuing && c.Disk == nil {",
		by("./pwa/device", "TestAClearedStorageIsWrittenAgain")},
	{"the storage's name is ignored", "pwa/device/commit.go",
		"cleared := o.before != nil && c.store != \"\" && c.store != o.store",
		"cleared := o.before != nil && c.store == \"never\"",
		by("./pwa/device", "TestAClearedStorageIsWrittenAgain")},
	{"nobody looks whether the storage is still there", "pwa/device/commit.go",
		"if err == nil && (len(found.Entries) == 0 ||",
		"if err == nil && (len(found.Entries) < 0 || len(found.Entries) > 1 &&",
		by("./pwa/device", "TestAClearedStorageIsWrittenAgain")},
	{"what the storage refused is not written again", "pwa/device/commit.go", "b = c.unwritten.then(b)",
		"_ = c.unwritten.then(b)", by("./pwa/device", "TestAStepOnAnUnwrittenStepIsStale")},
	{"told as stored though the storage refused", "pwa/device/answer.go", "d.Stored = !d.Refused && c.unwritten == nil",
		"d.Stored = !d.Refused", by("./pwa/device", "TestFormThatFindsAClearedStorageCountsOnce")},
}

var scriptBreaks = []mutation{
	{"durability strict -> relaxed", "static/js/disk.js", "{ durability: 'strict' }", "{ durability: 'relaxed' }", inNode},
	{"another tab's generation taken for mine", "static/js/disk.js", "if (last.result === token) return;",
		"if ((generation.result || '') === next) return;", inNode},
	{"a stale tab's commit is written", "static/js/disk.js", "if ((generation.result || '') !== expected) {",
		"if (generation.result === 'never') {", inNode},
	{"a form leaves the page's journal before its answer", "static/js/outbox.js",
		"const answer = await post(entry, this.attempt);",
		"this.journal.drop(entry.id); const answer = await post(entry, this.attempt);",
		by("./pwa/device", "TestFormStaysUntilTheServersVerdict")},
	{"a form leaves the page's journal upon any answer", "static/js/outbox.js", "if (!answer || !answer.fate) {",
		"if (!answer) {", by("./pwa/device", "TestFormStaysUntilTheServersVerdict")},
	{"a status stands for the server's mark", "static/js/outbox.js", "return { status: answer.status, fate: '' };",
		"return { status: answer.status, fate: answer.ok ? 'kept' : '' };",
		by("./pwa/device", "TestFormStaysUntilTheServersVerdict")},
	{"a form that was not sent is let go", "static/js/outbox.js", "  } catch {\n    return null;",
		"  } catch {\n    return { status: 0, fate: 'kept' };",
		by("./pwa/device", "TestFormStaysUntilTheServersVerdict")},
}
