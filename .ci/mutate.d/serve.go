package main

var (
	inServe = []string{"./app/serve -skip LateFormsAreBounded|NothingSentMakesTheServerFail"}
	limits  = []string{"./app/serve -run TestJoinsAreLimited|TestHealthIsLimited|TestClocksAreLimited|TestManifestsAreLimited"}
)

var serveBreaks = []mutation{
	{"no one-host redirect", "app/serve/access.go", `if s.host == "" || r.Host == s.host ||`, `if s.host == "" || r.Host != "" ||`, inServe},
	{"no same-site check", "app/serve/access.go", "if guard.Check(c.Request()) != nil {", "if guard == nil {", inServe},
	{"scripts read the cookie", "app/serve/access.go", "HttpOnly: true", "HttpOnly: false", inServe},
	{"the cookie goes over plain http", "app/serve/access.go", "Secure: s.secure", "Secure: false", inServe},
	{"other sites' pages bring the cookie", "app/serve/access.go", "SameSite: http.SameSiteStrictMode", "SameSite: http.SameSiteNoneMode", inServe},
	{"an ended device sees the owner's pages", "app/serve/access.go", `session.Role != job.Owner || session.Closed != "" {`, "session.Role != job.Owner {", inServe},
	{"a closed link sees its job", "app/serve/access.go", `return session.Closed == "" && (session.Role`, "return (session.Role", inServe},
	{"no rate limit", "app/serve/limits.go", "if b.AllowN(now, requests) {", "if b.AllowN(now, requests) || b.last == now {", limits},
	{"no Retry-After", "app/serve/errors.go", "if f.after > 0 {", "if f.after < 0 {", inServe},
	{"bodies of any kind are taken for JSON", "app/serve/access.go", `if strings.TrimSpace(kind) != "application/json" {`, `if kind == "nothing" {`, inServe},
}
