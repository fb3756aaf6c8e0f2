package serve

import (
	"errors"
	"net/http"
	"strings"

	"garlandry/app/job"
	"garlandry/app/store"

	"github.com/labstack/echo/v4"
)

// cookieDays is how long a device stays signed in without being used.
const cookieDays = 400

// cookieName returns the name of the session's cookie. With https, the __Host- prefix binds it to this host.
func (s *Server) cookieName() string {
	if s.secure {
		return "__Host-garlandry"
	}
	return "garlandry"
}

// setSession sends the session's cookie.
func (s *Server) setSession(c echo.Context, token string) {
	c.SetCookie(&http.Cookie{Name: s.cookieName(), Value: token, Path: "/", MaxAge: cookieDays * 24 * 3600,
		Secure: s.secure, HttpOnly: true, SameSite: http.SameSiteStrictMode})
}

const sessionKey = "session"

// known looks up the session of the request, if there is one.
func (s *Server) known(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		cookie, err := c.Cookie(s.cookieName())
		if err == nil {
			session, err := s.Store.Session(cookie.Value)
			switch {
			case err == nil:
				c.Set(sessionKey, session)
				s.nameByBrowser(c, session)
			case !errors.Is(err, store.ErrNotFound):
				return err
			}
		}
		return next(c)
	}
}

// member requires a session. It passes closed sessions too: their phones may still send what they have. Each handler
// must show them nothing of the job.
func (s *Server) member(next echo.HandlerFunc) echo.HandlerFunc {
	return s.known(func(c echo.Context) error {
		if _, in := sessionOf(c); !in {
			return errStranger
		}
		return next(c)
	})
}

// owner requires a device of the owner.
func (s *Server) owner(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		session, in := sessionOf(c)
		if !in || session.Role != job.Owner || session.Closed != "" {
			return errNotOwner
		}
		return next(c)
	}
}

func sessionOf(c echo.Context) (store.Session, bool) {
	session, in := c.Get(sessionKey).(store.Session)
	return session, in
}

func bySession(c echo.Context) string {
	session, _ := sessionOf(c)
	return session.ID
}

// byVisitor returns the session, or the address of a visitor without one.
func byVisitor(c echo.Context) string {
	if id := bySession(c); id != "" {
		return id
	}
	return "from " + byAddress(c)
}

// sees reports whether the session may see the job now.
func sees(session store.Session, id string) bool {
	return session.Closed == "" && (session.Role == job.Owner || session.Job == id)
}

// onlyJSON requires a JSON body, which a foreign page cannot send without a preflight request.
func onlyJSON(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		kind, _, _ := strings.Cut(c.Request().Header.Get("Content-Type"), ";")
		if strings.TrimSpace(kind) != "application/json" {
			return errKind
		}
		return next(c)
	}
}

// oneHost redirects or refuses other host names, because browsers store data for one host.
func (s *Server) oneHost(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		r := c.Request()
		if s.host == "" || r.Host == s.host || r.URL.Path == "/healthz" {
			return next(c)
		}
		if r.Method == http.MethodGet || r.Method == http.MethodHead {
			return c.Redirect(http.StatusPermanentRedirect, s.BaseURL+r.URL.RequestURI())
		}
		return errWrongHost
	}
}

func (s *Server) nowMS() int64 { return s.Now().UnixMilli() }
