package serve

import (
	"net/http"
	"net/url"
	"sync"

	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// saidLimit is how long, in milliseconds, a message waits for the page that is to show it.
const saidLimit = 60 * 1000

// said holds what the last plain form of each session did, until the page that follows shows it. A browser without
// scripts asks for that page itself. The words stay in memory: in an address or a cookie anybody could write them.
type said struct {
	mu        sync.Mutex
	bySession map[string]saying
}

type saying struct {
	place string // the page that is to show it, see placeOfPage
	flash string
	undo  *view.Action
	at    int64
}

// keep stores a message for a session, in place of an earlier one.
func (s *said) keep(session string, m saying) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for id, old := range s.bySession {
		if m.at-old.at > saidLimit {
			delete(s.bySession, id)
		}
	}
	if s.bySession == nil {
		s.bySession = map[string]saying{}
	}
	s.bySession[session] = m
}

// take returns the message for a page, once.
func (s *said) take(session, place string, now int64) (flash string, undo *view.Action) {
	s.mu.Lock()
	defer s.mu.Unlock()
	m, there := s.bySession[session]
	if !there || m.place != place {
		return "", nil
	}
	delete(s.bySession, session)
	if now-m.at > saidLimit {
		return "", nil
	}
	return m.flash, m.undo
}

// seeOther sends the browser to a page that says what its form did.
func (s *Server) seeOther(c echo.Context, to, flash string, undo *view.Action) error {
	session, in := sessionOf(c)
	if u, err := url.Parse(to); err == nil && in && flash != "" {
		s.said.keep(session.ID, saying{place: placeOfPage(u), flash: flash, undo: undo, at: s.nowMS()})
	}
	return c.Redirect(http.StatusSeeOther, to)
}

// whatWasDone returns what the page of this request is to say of the form before it; "" for nothing.
func (s *Server) whatWasDone(c echo.Context) (flash string, undo *view.Action) {
	session, in := sessionOf(c)
	if !in || c.Request().Method != http.MethodGet {
		return "", nil
	}
	return s.said.take(session.ID, placeOfPage(c.Request().URL), s.nowMS())
}

// placeOfPage returns an address without its fragment and without the mark that takes it past the service worker.
func placeOfPage(u *url.URL) string {
	query := u.Query()
	if query.Get("from") == "server" {
		query.Del("from")
	}
	return u.Path + "?" + query.Encode()
}
