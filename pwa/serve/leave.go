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

// signOut ends the session that asks and takes its cookie back. A plain form is answered with the page of a device that
// has signed out, and the browser is to clear what the app stored; so it is where there was no session any more.
func (s *Server) signOut(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	if session, known := sessionOf(c); known {
		// A form of the phone's core came here instead: nothing was handed in, so say what that means.
		if in.Get(view.FieldHere) != "" && in.Get(view.FieldAll) == "" {
			r := page.Get(s.world(c), address.SignOut.Path(), nil)
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
	// A script clears by itself. A service worker that waits for this answer must not be cleared meanwhile: it hangs.
	if !strings.Contains(c.Request().Header.Get("Accept"), "text/html") {
		return c.NoContent(http.StatusNoContent)
	}
	c.Response().Header().Set("Clear-Site-Data", `"storage"`)
	f := s.outFrame()
	f.Assets.Left = true
	return s.render(c, http.StatusOK, f, view.Out(false))
}

// outPage is where a device goes that has signed out. It holds no data, so that a service worker may keep it.
func (s *Server) outPage(c echo.Context) error {
	c.Response().Header().Set("Cache-Control", "no-cache")
	return s.render(c, http.StatusOK, s.outFrame(), view.Out(c.Request().URL.Path == address.OutLater.Path()))
}

// outFrame surrounds a page that no core draws over.
func (s *Server) outFrame() view.Frame {
	f := view.Frame{Title: "Signed out", Path: address.Out.Path(), Assets: s.assets(), Now: s.nowMS()}
	f.Assets.Build = ""
	return f
}

// leaving says what of signing out the server knows: whether the owner has another device.
func (s *Server) leaving(session store.Session) view.Leaving {
	return view.Leaving{Last: s.lastDevice(session)}
}

// lastDevice reports whether no other device of the owner is let in.
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
