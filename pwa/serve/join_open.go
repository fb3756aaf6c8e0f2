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

// askInstalled is where an installed app starts on phones that give it a storage of its own: the address carries a
// single-use code that lets it in as the same person. It only asks. An address alone must never change who a phone is:
// any page or message can lead there. A code that opens nothing, or nothing new, just opens the app.
func (s *Server) askInstalled(c echo.Context) error {
	return s.questionOpen(c, c.QueryParam("i"), http.StatusOK)
}

func (s *Server) questionOpen(c echo.Context, code string, status int) error {
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
	f := s.frame(c, "Open the app")
	return s.render(c, status, f, view.JoinOpen(f, p))
}

// openInstalled spends an installed app's code, if the visitor has said so while knowing who the phone was.
func (s *Server) openInstalled(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	code := in.Get(view.FieldInstall)
	if now, let := sessionOf(c); let && now.Closed == "" && in.Get(view.FieldInstead) == "" {
		return s.questionOpen(c, code, http.StatusConflict)
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
	s.noteIn(c, seclog.Installed, session)
	s.setSession(c, secret)
	return c.Redirect(http.StatusSeeOther, home(session))
}

// opensNothing reports whether an error says that a link or code is spent, ended, full or none.
func opensNothing(err error) bool {
	return isOne(err, store.ErrUnknownLink, store.ErrLinkEnded, store.ErrLinkRevoked, store.ErrLinkFull)
}

func isOne(err error, of ...error) bool {
	return slices.ContainsFunc(of, func(one error) bool { return errors.Is(err, one) })
}
