package serve

import (
	"net/http"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/shell"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// manifest makes the app installable. Pages ask for it with the cookie, so it may be the visitor's own: with shortcuts
// that this person can follow, and, where installed apps start with empty storage, with a single-use code that signs
// the installed app in as the same person. Nothing may store it.
func (s *Server) manifest(c echo.Context) error {
	c.Response().Header().Set("Vary", "Cookie, User-Agent")
	start := address.Home.Path()
	session, in := sessionOf(c)
	if in && session.Closed == "" && needsCode(c.Request().UserAgent()) {
		code, err := s.Store.CreateInstallCode(c.Request().Context(), session)
		if err != nil {
			return err
		}
		start = address.JoinOpen.Path() + "?i=" + code
	}
	data, err := s.Shell.Manifest(start, shortcuts(session)...)
	if err != nil {
		return err
	}
	return c.Blob(http.StatusOK, "application/manifest+json", data)
}

// needsCode reports whether a browser's installed apps start with empty storage. An iPad says that it is a Macintosh,
// and nothing else in a request tells them apart, so a Mac's Safari gets a code too; there it is never needed.
func needsCode(agent string) bool { return view.PlatformOf(agent, 0).OwnStorage() }

// shortcuts lists pages that the person may open; none without a session that has access.
func shortcuts(session store.Session) []shell.Shortcut {
	calculators := shell.Shortcut{Name: "Calculators", URL: address.Calculators.Path()}
	switch {
	case session.Role == "" || session.Closed != "":
		return nil
	case session.Role == job.Owner:
		return []shell.Shortcut{{Name: "New job", URL: address.New.Path()}, calculators}
	}
	return []shell.Shortcut{{Name: "Cards", URL: address.Cards.Path(session.Job)},
		{Name: "Pack list", URL: address.Pack.Path(session.Job)}, calculators}
}
