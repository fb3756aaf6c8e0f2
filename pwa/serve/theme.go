package serve

import (
	"net/http"

	"garlandry/pwa/address"

	"github.com/labstack/echo/v4"
)

// themeOf returns the look chosen in this browser. The cookie is not secret: the page's script writes it too.
func themeOf(c echo.Context) string {
	cookie, err := c.Cookie("look")
	if err != nil {
		return ""
	}
	return cookie.Value
}

// setTheme stores the look for a browser without scripts.
func (s *Server) setTheme(c echo.Context, name string) error {
	c.SetCookie(
		&http.Cookie{Name: "look", Value: name, Path: "/", MaxAge: cookieDays * 24 * 3600, Secure: s.secure,
			SameSite: http.SameSiteStrictMode},
	)
	return c.Redirect(http.StatusSeeOther, address.Phone.Path())
}
