package serve

import (
	"net/http"

	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// makeTyped shows the person a short code to type into the app they have installed.
func (s *Server) makeTyped(c echo.Context) error {
	session, _ := sessionOf(c)
	code, _, err := s.Store.CreateTypedCode(c.Request().Context(), session)
	if err != nil {
		return err
	}
	s.Security.Add(ofDevice(seclog.Event{What: seclog.CodeMade, From: c.RealIP()}, session))
	f := s.frame(c, view.LabelAppCode)
	f.Device.Platform = view.PlatformOf(c.Request().UserAgent(), 0)
	return s.render(c, http.StatusOK, f, view.AppCode(f, code))
}

// toDevices leads a reload of a page that a form has drawn to where the form is.
func (s *Server) toDevices(c echo.Context) error {
	return c.Redirect(http.StatusSeeOther, address.Devices.Path())
}

// joinTyped takes a short code from the first page of an installed app.
func (s *Server) joinTyped(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	return s.openTyped(c, in.Get(view.FieldAppCode), in)
}

// openTyped redeems a short code. If somebody else is signed in, the visitor must have confirmed it. All tries of all
// visitors are counted together, since short codes could be guessed from many addresses.
func (s *Server) openTyped(c echo.Context, text string, in form.Values) error {
	if allowed, _ := s.typed.Allow(""); !allowed {
		return tooMany(s.typed.pause(1))
	}
	ctx := c.Request().Context()
	first, err := s.Store.LookAtTypedCode(ctx, text)
	if now, signedIn := sessionOf(c); err == nil && signedIn && now.Closed == "" {
		if now.SamePerson(first) {
			return c.Redirect(http.StatusSeeOther, home(now))
		}
		if in.Get(view.FieldInstead) == "" {
			code, _ := store.TypedCode(text)
			f := s.frame(c, view.LabelOpenApp)
			return s.render(c, http.StatusConflict, f, view.JoinOpen(f, view.JoinAs{Code: code, Typed: true,
				Name: first.Name, Role: first.Role, In: true, NowName: now.Name, NowRole: now.Role}))
		}
	}
	var secret string
	var session store.Session
	if err == nil {
		secret, session, err = s.Store.RedeemTypedCode(ctx, text)
	}
	if err != nil {
		s.noteWrongLink(c, err)
	}
	switch {
	case opensNothing(err):
		f := s.frame(c, view.LabelJoin)
		return s.render(c, http.StatusNotFound, f, view.Scan(f, view.JoinForm{AppCode: text, AppCodeError: wrongCode(err)}))
	case err != nil:
		return err
	}
	return s.letIn(c, seclog.Installed, secret, session)
}

// wrongCode says why a short code opens nothing.
func wrongCode(err error) string {
	switch {
	case isOne(err, store.ErrLinkRevoked, store.ErrLinkFull):
		return sentence(err)
	case isOne(err, store.ErrLinkEnded):
		return "This code is more than 10 minutes old. Get a new one in your browser."
	}
	return "No such code. Each works once: check it, or get a new one in your browser."
}
