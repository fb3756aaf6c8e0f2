package serve

import (
	"net/http"
	"strings"
	"time"

	"garlandry/pwa/address"

	"github.com/labstack/echo/v4"
)

// accessLog writes one line for each answer: no query, no body, no cookie, no secret.
func (s *Server) accessLog(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		start := s.Now()
		err := next(c)
		if err != nil {
			c.Error(err)
		}
		r := c.Request()
		s.Log.Info("answered", "method", r.Method, "path", loggedPath(r), "status", c.Response().Status,
			"bytes", c.Response().Size, "ms", float64(s.Now().Sub(start).Microseconds())/1000, "from", c.RealIP())
		return nil
	}
}

// loggedPath returns a request's path without the token of a client's link.
func loggedPath(r *http.Request) string {
	before, _, _ := strings.Cut(string(address.ClientPage), "*")
	if strings.HasPrefix(r.URL.Path, before) {
		return string(address.ClientPage)
	}
	return r.URL.Path
}

// alive is the interval of an event stream's heartbeat.
const alive = 15 * time.Second
