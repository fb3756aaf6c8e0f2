package main

var (
	inServe  = []string{"./pwa/serve -skip LateFormsAreBounded|NothingSentMakesTheServerFail"}
	together = []string{"./pwa/serve -run TestSeveralLogs|TestOneLog|TestARequestForSeveral|TestALongAnswer"}
	noted    = []string{"./pwa/serve -run TestTheSecurityLogTells"}
	limits   = []string{
		"./pwa/serve -run TestJoinsAreLimited|TestHealthIsLimited|TestClocksAreLimited|TestManifestsAreLimited",
	}
)

var serveBreaks = []mutation{
	{"no one-host redirect", "pwa/serve/access.go", `if s.host == "" || r.Host == s.host ||`,
		`if s.host == "" || r.Host != "" ||`, inServe},
	{"no same-site check", "pwa/serve/access.go", "if guard.Check(c.Request()) != nil {", "if guard == nil {", inServe},
	{"scripts read the cookie", "pwa/serve/access.go", "HttpOnly: true", "HttpOnly: false", inServe},
	{"the cookie goes over plain http", "pwa/serve/access.go", "Secure: s.secure", "Secure: false", inServe},
	{"other sites' pages bring the cookie", "pwa/serve/access.go", "SameSite: http.SameSiteStrictMode",
		"SameSite: http.SameSiteNoneMode", inServe},
	{"an ended device sees the owner's pages", "pwa/serve/access.go",
		`session.Role != job.Owner || session.Closed != "" {`, "session.Role != job.Owner {", inServe},
	{"a closed link sees its job", "pwa/serve/access.go", `return session.Closed == "" && (session.Role`,
		"return (session.Role", inServe},
	{"no rate limit", "pwa/serve/limits.go", "return b.AllowN(now, min(requests, l.burst))",
		"return b.AllowN(now, min(requests, l.burst)) || b.last == now", limits},
	{"no Retry-After", "pwa/serve/errors.go", "if f.after > 0 {", "if f.after < 0 {", inServe},
	{"bodies of any kind are taken for JSON", "pwa/serve/access.go", `if strings.TrimSpace(kind) != "application/json" {`,
		`if kind == "nothing" {`, inServe},
	{"what met a limit is not noted", "pwa/serve/exchange.go", "\ts.noteAcks(c, log, resp)\n", "", noted},
	{"what met a limit among several logs is not noted", "pwa/serve/together.go", "\ts.noteAcks(c, asked.log, resp)\n",
		"", noted},
	{"a refusal among several logs is not noted", "pwa/serve/together.go", "\t\t\ts.noteFailureIn(c, f, id)\n", "", noted},
	{"one refused log stops the others", "pwa/serve/together.go", "if err != nil {\n\t\tf := failureOf(err)",
		"if err != nil {\n\t\tif asked.log != \"\" {\n\t\t\treturn sync.LogAnswer{}, err\n\t\t}\n\t\tf := failureOf(err)",
		together},
	{"many logs count as one request", "pwa/serve/together.go", "return asked, max(0, ", "return asked, 0 * max(0, ",
		together},
	{"many logs are written at once", "pwa/serve/together.go", "if writes == sync.MaxWritten {", "if writes < 0 {",
		together},
}
