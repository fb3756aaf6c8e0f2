package serve

import (
	"net/http"
	"strings"

	"garlandry/pwa/address"
	"garlandry/pwa/gallery"

	"github.com/labstack/echo/v4"
)

// gallery shows every view with sample data, for developers.
func (s *Server) gallery(c echo.Context) error {
	name := strings.Trim(c.Param("*"), "/")
	assets := s.assets()
	assets.Script = "" // the samples are not jobs, so the core must not answer there
	if name == "" {
		body, err := gallery.Index(address.Gallery.Path())
		if err != nil {
			return err
		}
		f := s.frame(c, "Gallery")
		return s.render(c, http.StatusOK, f, body)
	}
	p, there, err := gallery.Find(name)
	if err != nil {
		return err
	}
	if !there {
		return errNotFound
	}
	return s.send(c, http.StatusOK, p.Document(assets))
}
