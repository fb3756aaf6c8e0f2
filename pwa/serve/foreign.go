package serve

import (
	"net"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"
)

// referrerPolicy lets browsers name the page a request comes from to this app alone, so no other site learns an
// address. Under "no-referrer" browsers send forms with "Origin: null". Over plain http, where they leave out
// Sec-Fetch-Site, nothing would tell such a form from another site's.
const referrerPolicy = "same-origin"

// sameSite refuses requests that another site's page sends.
func (s *Server) sameSite(next echo.HandlerFunc) echo.HandlerFunc {
	guard := http.NewCrossOriginProtection()
	return func(c echo.Context) error {
		if guard.Check(c.Request()) != nil || s.downgraded(c.Request()) {
			return errForeign
		}
		return next(c)
	}
}

// downgraded reports whether a plain http page, which anybody on the network can forge, posts to this app over https.
// The standard library compares only the hosts where a browser leaves out Sec-Fetch-Site. Pages themselves may be
// opened from anywhere.
func (s *Server) downgraded(r *http.Request) bool {
	return s.secure && r.Method == http.MethodPost && r.Header.Get("Sec-Fetch-Site") == "" &&
		strings.HasPrefix(r.Header.Get("Origin"), "http://")
}

// plainHTTP reports whether a page comes over plain http from another machine, as far as the request tells. Browsers
// then offer neither service workers nor installing. It only decides what pages say.
func (s *Server) plainHTTP(r *http.Request) bool {
	if s.secure || r.TLS != nil || r.Header.Get("X-Forwarded-Proto") == "https" {
		return false
	}
	host := r.Host
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	ip := net.ParseIP(strings.Trim(host, "[]"))
	return host != "localhost" && (ip == nil || !ip.IsLoopback())
}
