package main

var clientBreaks = []mutation{
	{"a revoked client link still opens", "app/store/client_link.go",
		"if s.closeClientLink(&row); !found || row.Revoked > 0 ||", "if !found || row.Revoked > 0 ||",
		by("./app/store", "TestRevokedClientLinkStaysRevoked")},
	{"a client link of a deleted job opens", "app/store/client_link.go",
		"errors.Is(err, ErrNotFound) || errors.Is(err, ErrJobGone) {\n\t\t\treturn ErrUnknownLink",
		"errors.Is(err, ErrNotFound) || errors.Is(err, ErrJobGone) {\n\t\t\treturn nil",
		by("./app/store", "TestClientLinkOpensUntilItIsOver")},
	{"tries of client links are not counted", "pwa/serve/client.go", "s.looks.allow(byAddress(c), 1)", "",
		by("./pwa/serve", "TestTriesOfClientsLinksAreLimited")},
	{"a client link's token is in the log", "pwa/serve/log.go", "if strings.HasPrefix(r.URL.Path, before) {",
		"if before == \"\" {", by("./pwa/serve", "TestAClientsLinkEnds")},
	{"the client sees the crew unasked", "pwa/view/client_page.go", "if shows.Crew {", "if len(j.Crew) > 0 {",
		by("./pwa/serve", "TestAClientSeesNothingElse")},
	{"a cover stays though the design has changed", "pwa/serve/covers.go",
		"if !there || drawn.design != r.Design {", "if !there {", by("./pwa/serve", "TestTheListShowsCovers")},
	{"the phone's cover stays though the design has changed", "pwa/device/deps.go",
		"case there && drawn.design == design:", "case there:", by("./pwa/device", "TestCoversFollowTheList")},
}
