package serve

import (
	"net/http"
	"strings"
)

// headAsGet answers HEAD as GET; net/http leaves out the body. It skips the API, where a GET may never end.
func headAsGet(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodHead && !strings.HasPrefix(r.URL.Path, "/api/") {
			r = r.WithContext(r.Context()) // net/http checks its own copy to leave out the body
			r.Method = http.MethodGet
		}
		next.ServeHTTP(w, r)
	})
}
