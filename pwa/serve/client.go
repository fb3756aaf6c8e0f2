package serve

import (
	"errors"
	"net/http"
	"time"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// clientPolicy allows a client's page its style sheets and its icon, and nothing else: no scripts, no forms.
const clientPolicy = "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; " +
	"frame-ancestors 'none'"

// clientHeaders sets the headers of a page whose address is a secret: nothing stores it, lists it, or passes it on.
func (s *Server) clientHeaders(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		h := c.Response().Header()
		h.Set("Content-Security-Policy", clientPolicy)
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "private, no-store")
		h.Set("X-Robots-Tag", "noindex, nofollow")
		return next(c)
	}
}

// clientPage shows a job to its client. It asks for no session: whoever has the link may look. A link that has ended
// and one that never was get the same answer. After too many of those an address has to wait.
func (s *Server) clientPage(c echo.Context) error {
	if s.wrongLooks.spent(byAddress(c)) || !s.looks.allow(byAddress(c), 1) {
		s.note(c, seclog.Event{What: seclog.Refused, Why: seclog.TooMany})
		return s.send(c, http.StatusTooManyRequests, view.ClientBusy(s.assets()))
	}
	link, err := s.Store.OpenClientLink(c.Param("*"))
	j, there := job.Job{}, false
	if err == nil {
		j, there = s.readJob(link.Job, job.Helper) // without what only the owner sees
	}
	if errors.Is(err, store.ErrUnknownLink) || err == nil && !there {
		s.wrongLooks.allow(byAddress(c), 1)
		s.noteWrongLink(c, store.ErrUnknownLink)
		return s.send(c, http.StatusNotFound, view.ClientGone(s.assets()))
	}
	if err != nil {
		return err
	}
	return s.send(c, http.StatusOK,
		view.ClientPage(s.assets(), j, s.plans.Plan(j, plan.DesignFingerprint(j)), view.ClientShows(link.Shows)))
}

// clientEnds is the input of the day on which a new client's link ends.
const clientEnds = view.ClientPrefix + view.ShareEnds

// createClientLink makes a link to the client's page and shows its address once.
func (s *Server) createClientLink(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	state := form.NewState()
	for _, name := range []string{view.ShowTitle, view.ShowMeasures, view.ShowCrew, clientEnds} {
		if name == clientEnds || in.Get(name) != "" {
			state.Values.Set(name, in.Get(name))
		}
	}
	ends, err := s.linkEnd(c.Param("job"), in.Get(clientEnds), clientDays)
	if err != nil {
		state.Fail(clientEnds, err.Error())
		return s.showShare(c, http.StatusUnprocessableEntity, view.SharePage{ClientState: state})
	}
	shows := store.ClientShows{Title: in.Get(view.ShowTitle) != "", Measures: in.Get(view.ShowMeasures) != "",
		Crew: in.Get(view.ShowCrew) != ""}
	link, token, err := s.Store.CreateClientLink(c.Request().Context(), session, c.Param("job"), shows, ends)
	var field *job.FieldError
	if errors.As(err, &field) {
		state.Fail(clientEnds, field.Message)
		return s.showShare(c, http.StatusUnprocessableEntity, view.SharePage{ClientState: state})
	}
	if err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.LinkMade, Job: link.Job, Link: link.ID, LinkName: view.LabelClientLink})
	return s.showFresh(c, view.FreshLink{Client: true, URL: s.address(c) + address.ClientPage.Path(token)})
}

// endClientLink ends a link to the client's page.
func (s *Server) endClientLink(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	id := in.Get(view.ShareLink)
	if err := s.Store.RevokeClientLink(c.Request().Context(), session, c.Param("job"), id); err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.LinkEnded, Job: c.Param("job"), Link: id, LinkName: view.LabelClientLink})
	return s.seeOther(c, address.Share.Path(c.Param("job")), "Ended the link.", nil)
}

// clientLinks lists the links to a job's page for its client.
func (s *Server) clientLinks(id string, place *time.Location) ([]view.ClientLink, error) {
	links, err := s.Store.ClientLinks(id)
	rows := make([]view.ClientLink, len(links))
	for i, l := range links {
		rows[i] = view.ClientLink{ID: l.ID, Shows: view.ClientShows(l.Shows), Made: l.Created, Ends: l.Ends,
			Until: time.UnixMilli(l.Ends - 1).In(place).Format(time.DateOnly), Over: l.Revoked > 0}
	}
	return rows, err
}
