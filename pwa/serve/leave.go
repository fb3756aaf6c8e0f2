package serve

import (
	"net/http"
	"strings"

	"garlandry/app/job"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// signOut ends the visitor's session and deletes its cookie. A plain form gets the page of a signed-out device and
// makes the browser clear the app's storage, even if there was no session.
func (s *Server) signOut(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	if session, known := sessionOf(c); known {
		// The core should have handled this form, so nothing was sent yet. Show what signing out would lose.
		if in.Get(view.FieldHere) != "" && in.Get(view.FieldAll) == "" {
			r := page.Get(s.deps(c), address.SignOut.Path(), nil)
			r.Status = http.StatusConflict
			return s.reply(c, r)
		}
		if err := s.Store.SignOut(c.Request().Context(), session); err != nil {
			return err
		}
		s.note(c, seclog.Event{What: seclog.SignedOut})
	}
	c.SetCookie(&http.Cookie{Name: s.cookieName(), Path: "/", MaxAge: -1, Secure: s.secure,
		HttpOnly: true, SameSite: http.SameSiteStrictMode})
	// A script clears the storage itself. Clearing a service worker that waits for this answer would make it hang.
	if !strings.Contains(c.Request().Header.Get("Accept"), "text/html") {
		return c.NoContent(http.StatusNoContent)
	}
	c.Response().Header().Set("Clear-Site-Data", `"storage"`)
	f := s.outFrame()
	f.Assets.Left = true
	return s.render(c, http.StatusOK, f, view.Out(false))
}

// outPage draws the page of a signed-out device. It holds no data, so a service worker may store it.
func (s *Server) outPage(c echo.Context) error {
	c.Response().Header().Set("Cache-Control", "no-cache")
	return s.render(c, http.StatusOK, s.outFrame(), view.Out(c.Request().URL.Path == address.OutLater.Path()))
}

// outFrame returns the frame of a page that no core redraws.
func (s *Server) outFrame() view.Frame {
	f := view.Frame{Title: "Signed out", Path: address.Out.Path(), Assets: s.assets(), Now: s.nowMS()}
	f.Assets.Build = ""
	return f
}

// leaving returns what the server knows about signing out: whether the owner has another device.
func (s *Server) leaving(session store.Session) view.Leaving {
	return view.Leaving{Last: s.lastDevice(session)}
}

// lastDevice reports whether no other device of the owner has access.
func (s *Server) lastDevice(session store.Session) bool {
	if session.Role != job.Owner {
		return false
	}
	others, err := s.Store.OtherOwnerDevices(session)
	if err != nil {
		s.Log.Error("the owner's devices were not counted", "err", err)
	}
	return err == nil && others == 0
}
