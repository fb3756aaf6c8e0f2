package serve

import (
	"net/http"
	"strings"
)

// headAsGet answers HEAD as GET; net/http leaves the body out. Addresses whose GET never ends take no HEAD.
func headAsGet(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodHead && !strings.HasPrefix(r.URL.Path, "/api/") {
			r = r.WithContext(r.Context()) // net/http looks at its own request to see whether a body is due
			r.Method = http.MethodGet
		}
		next.ServeHTTP(w, r)
	})
}
