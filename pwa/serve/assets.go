package serve

import (
	"errors"
	"io/fs"
	"net/http"
	"strings"

	"garlandry/pwa/shell"

	"github.com/labstack/echo/v4"
)

// asset serves a built file with a long cache time: its address changes with its content.
func (s *Server) asset(c echo.Context) error {
	accepts := c.Request().Header.Get("Accept-Encoding")
	content, encoding, kind, err := s.Shell.File(c.Request().URL.Path, strings.Contains(accepts, "br"),
		strings.Contains(accepts, "gzip"))
	if errors.Is(err, fs.ErrNotExist) {
		return errNotFound
	}
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set("Vary", "Accept-Encoding")
	if encoding != "" {
		h.Set("Content-Encoding", encoding)
	}
	h.Set("Cache-Control", "no-cache")
	if s.Shell.Built() {
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	return c.Blob(http.StatusOK, kind, content)
}

// serviceWorker serves /sw.js without caching, or the one that removes itself if the server is set to retire it.
func (s *Server) serviceWorker(c echo.Context) error {
	script := shell.Retire()
	if !s.RetireWorker {
		var err error
		if script, err = s.Shell.ServiceWorker(); err != nil {
			return err
		}
	}
	c.Response().Header().Set("Cache-Control", "no-cache")
	return c.Blob(http.StatusOK, "text/javascript; charset=utf-8", script)
}

// favicon answers browsers that ask for an icon before reading the page.
func (s *Server) favicon(c echo.Context) error {
	return c.Redirect(http.StatusFound, s.Shell.URL("icons/icon-192.png"))
}

// robots keeps search engines out of everything.
func (s *Server) robots(c echo.Context) error {
	return c.String(http.StatusOK, "User-agent: *\nDisallow: /\n")
}
