package serve

import (
	"errors"
	"net/http"
	"slices"

	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// askInstalled asks before an installed app is signed in by the single-use code in its start address. Any page or
// message can lead to this address, so it must not change who is signed in. A code without effect just opens the app.
func (s *Server) askInstalled(c echo.Context) error {
	return s.confirmOpen(c, c.QueryParam("i"), http.StatusOK)
}

func (s *Server) confirmOpen(c echo.Context, code string, status int) error {
	first, err := s.Store.InstallCode(c.Request().Context(), code)
	switch {
	case opensNothing(err):
		return c.Redirect(http.StatusSeeOther, address.Home.Path())
	case err != nil:
		return err
	}
	p := view.JoinAs{Code: code, Name: first.Name, Role: first.Role}
	if now, in := sessionOf(c); in && now.Closed == "" {
		if now.SamePerson(first) {
			return c.Redirect(http.StatusSeeOther, home(now))
		}
		p.In, p.NowName, p.NowRole = true, now.Name, now.Role
	}
	f := s.frame(c, view.LabelOpenApp)
	return s.render(c, status, f, view.JoinOpen(f, p))
}

// openInstalled redeems an installed app's code. If somebody else is signed in, the visitor must have confirmed it.
func (s *Server) openInstalled(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	code := in.Get(view.FieldInstall)
	if now, signedIn := sessionOf(c); signedIn && now.Closed == "" && in.Get(view.FieldInstead) == "" {
		return s.confirmOpen(c, code, http.StatusConflict)
	}
	secret, session, err := s.Store.RedeemInstallCode(c.Request().Context(), code)
	if err != nil {
		s.noteWrongLink(c, err)
	}
	switch {
	case opensNothing(err):
		return c.Redirect(http.StatusSeeOther, address.Home.Path())
	case err != nil:
		return err
	}
	return s.letIn(c, seclog.Installed, secret, session)
}

// opensNothing reports whether a link or code is used up, ended, full or unknown.
func opensNothing(err error) bool {
	return isOne(err, store.ErrUnknownLink, store.ErrLinkEnded, store.ErrLinkRevoked, store.ErrLinkFull)
}

func isOne(err error, of ...error) bool {
	return slices.ContainsFunc(of, func(one error) bool { return errors.Is(err, one) })
}
