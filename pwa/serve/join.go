package serve

import (
	"errors"
	"net/http"
	"net/url"
	"strings"

	"garlandry/app/job"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// ownerLink builds the address of an owner invite. The token is in the fragment, which browsers never send.
func (s *Server) ownerLink(c echo.Context, token string) string {
	return s.address(c) + address.OwnerInvite(token)
}

// helperLink builds the address of a helper link, with the helper's name if it is short.
func (s *Server) helperLink(c echo.Context, token, name string) string {
	const longest = 120 // so that the link's code can still be scanned
	link := s.address(c) + address.Join.Path() + "#" + token
	if named := nameMark + url.PathEscape(name); len(named) <= longest {
		link += named
	}
	return link
}

// nameMark separates the token of a helper link from the helper's name, which fills the join form.
const nameMark = "&name="

// joinPage shows the page that a link opens.
func (s *Server) joinPage(c echo.Context) error {
	typed := view.JoinForm{Owner: c.QueryParam("as") == "owner"}
	f := s.frame(c, "Join")
	return s.render(c, http.StatusOK, f, view.Join(f, typed))
}

// scanPage shows the form for a code on paper.
func (s *Server) scanPage(c echo.Context) error {
	f := s.frame(c, view.LabelJoin)
	return s.render(c, http.StatusOK, f, view.Scan(f, view.JoinForm{}))
}

// join swaps a link's token for a session.
func (s *Server) join(c echo.Context) error {
	in, err := posted(c)
	if err != nil {
		return err
	}
	typed := view.JoinForm{Name: strings.TrimSpace(in.Get(view.FieldName)), Code: in.Get(view.FieldCode),
		Owner: c.QueryParam("as") == "owner"}
	token := linkToken(in.Get(view.FieldToken))
	if token == "" {
		token = linkToken(typed.Code)
	}
	if _, short := store.TypedCode(token); short { // typed into the field for links
		return s.openTyped(c, token, in)
	}
	if token == "" {
		typed.CodeError = "The code is missing: paste the whole link, or the part after #."
		return s.joinAgain(c, http.StatusBadRequest, typed)
	}
	if len([]rune(typed.Name)) > 60 {
		typed.NameError = "At most 60 characters."
		return s.joinAgain(c, http.StatusBadRequest, typed)
	}
	if session, known := sessionOf(c); known && session.Role == job.Owner && session.Closed == "" && !typed.Owner &&
		in.Get(view.FieldInstead) == "" {
		f := s.frame(c, "This phone is yours")
		return s.render(c, http.StatusConflict, f, view.JoinInstead(f, typed, token))
	}
	ctx := c.Request().Context()
	secret, session, err := s.Store.RedeemLink(ctx, token, typed.Name)
	if errors.Is(err, store.ErrUnknownLink) {
		secret, session, err = s.Store.RedeemInvite(ctx, token, typed.Name)
	}
	if err != nil {
		s.noteWrongLink(c, err)
	}
	switch {
	case errors.Is(err, store.ErrLinkEnded), errors.Is(err, store.ErrLinkRevoked):
		f := s.frame(c, "Link ended")
		return s.render(c, http.StatusGone, f, view.JoinEnded(f))
	case errors.Is(err, store.ErrUnknownLink), errors.Is(err, store.ErrLinkFull):
		typed.CodeError = sentence(err)
		return s.joinAgain(c, http.StatusNotFound, typed)
	case err != nil:
		return err
	}
	what := seclog.Joined
	if session.Role == job.Owner {
		what = seclog.OwnerIn
	}
	return s.letIn(c, what, secret, session)
}

// letIn signs a device in: it logs that, names the device by its browser and opens the person's first page.
func (s *Server) letIn(c echo.Context, what, secret string, session store.Session) error {
	s.noteIn(c, what, session)
	s.nameByBrowser(c, session)
	s.setSession(c, secret)
	return c.Redirect(http.StatusSeeOther, home(session))
}

func (s *Server) joinAgain(c echo.Context, status int, typed view.JoinForm) error {
	f := s.frame(c, "Join")
	if typed.Owner {
		return s.render(c, status, f, view.Join(f, typed))
	}
	return s.render(c, status, f, view.Scan(f, typed))
}

// linkToken finds the token in a token or a whole link.
func linkToken(text string) string {
	text = strings.TrimSpace(text)
	if _, after, found := strings.Cut(text, "#"); found {
		text = after
	}
	text, _, _ = strings.Cut(text, "&")
	return strings.TrimSpace(text)
}

func home(session store.Session) string {
	if session.Role == job.Owner {
		return address.Home.Path()
	}
	return address.Next.Path(session.Job)
}
