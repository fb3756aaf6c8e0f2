package serve

import (
	"context"
	"log/slog"
	"net/http"
	"strings"

	"garlandry/app/job"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// tellSecurity writes security events to the server's log too.
func tellSecurity(log *slog.Logger) func(seclog.Event) {
	return func(e seclog.Event) {
		attrs := []slog.Attr{slog.String("what", e.What)}
		for _, a := range []struct{ name, value string }{{"why", e.Why}, {"job", e.Job},
			{"link", e.Link}, {"link_name", e.LinkName},
			{"device", e.Device}, {"device_name", e.DeviceName}, {"by", e.By}, {"from", e.From}} {
			if a.value != "" {
				attrs = append(attrs, slog.String(a.name, a.value))
			}
		}
		if e.Times > 0 {
			attrs = append(attrs, slog.Int("times", e.Times))
		}
		if e.N > 0 {
			attrs = append(attrs, slog.Int("operations", e.N))
		}
		log.LogAttrs(context.Background(), slog.LevelWarn, "security", attrs...)
	}
}

// note writes an event to the security log, with the visitor and their address.
func (s *Server) note(c echo.Context, e seclog.Event) {
	if session, in := sessionOf(c); in {
		if e.By == "" && session.Role == job.Owner && session.Closed == "" && e.What != seclog.Refused {
			e.By = orElse(session.Name, session.ID)
		} else if e.Device == "" {
			e = ofDevice(e, session)
		}
	}
	e.From = c.RealIP()
	s.Security.Add(e)
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

func ofDevice(e seclog.Event, session store.Session) seclog.Event {
	e.Device, e.DeviceName, e.Link = session.ID, session.Name, session.Link
	if e.Job == "" {
		e.Job = session.Job
	}
	return e
}

// noteIn logs that a device signed in.
func (s *Server) noteIn(c echo.Context, what string, session store.Session) {
	s.Security.Add(ofDevice(seclog.Event{What: what, From: c.RealIP()}, session))
}

// noteWrongLink logs that a link, invite or code was not valid.
func (s *Server) noteWrongLink(c echo.Context, err error) {
	why := seclog.NoSuchLink
	switch f := failureOf(err); {
	case f.code != "link":
		return
	case isOne(err, store.ErrLinkEnded, store.ErrLinkRevoked):
		why = seclog.LinkOver
	case isOne(err, store.ErrLinkFull):
		why = seclog.LinkBusy
	}
	s.note(c, seclog.Event{What: seclog.Refused, Why: why})
}

// whyRefused maps the codes of failures that count as refused to the reason in the log.
var whyRefused = map[string]string{"stranger": seclog.Stranger, "closed": seclog.Closed,
	"forbidden": seclog.Forbidden, "foreign": seclog.OtherSite, "host": seclog.WrongHost,
	"too_many": seclog.TooMany, "streams": seclog.TooMany}

// noteFailure logs a request that was refused or hit a limit.
func (s *Server) noteFailure(c echo.Context, f *failure) {
	s.noteFailureIn(c, f, address.JobOf(c.Request().URL.Path))
}

// noteFailureIn is noteFailure for a job; an empty id means none.
func (s *Server) noteFailureIn(c echo.Context, f *failure, id string) {
	session, in := sessionOf(c)
	e := seclog.Event{What: seclog.Refused, Why: whyRefused[f.code], Job: id}
	switch {
	case f.code == "later":
		e.What = seclog.HourFull
	case f.code == "full":
		e.What = seclog.Full
	case in && (f == errNotOwner || f.status == http.StatusNotFound && id != "") &&
		(session.Closed != "" || session.Role != job.Owner):
		e.Why = pickWhy(session) // the answer is that there is no such page
	case e.Why == "":
		return
	}
	s.note(c, e)
}

func pickWhy(session store.Session) string {
	if session.Closed != "" {
		return seclog.Closed
	}
	return seclog.Forbidden
}

// noteAnswered logs a page that refuses its visitor.
func (s *Server) noteAnswered(c echo.Context, status int) {
	session, in := sessionOf(c)
	if in && session.Role != job.Owner &&
		(status == http.StatusForbidden || status == http.StatusNotFound && address.JobOf(c.Request().URL.Path) != "") {
		s.note(c, seclog.Event{What: seclog.Refused, Why: pickWhy(session), Job: address.JobOf(c.Request().URL.Path)})
	}
}

// noteAcks logs operations of a phone that hit a limit or were not allowed.
func (s *Server) noteAcks(c echo.Context, log string, resp sync.Response) {
	count := map[seclog.Event]int{}
	id := strings.TrimSuffix(log, sync.OwnSuffix)
	for _, a := range resp.Acks {
		switch {
		case a.Result == sync.Later:
			count[seclog.Event{What: seclog.HourFull, Job: id}]++
		case a.Result == sync.Denied && sync.IsFull(a.Why):
			count[seclog.Event{What: seclog.Full, Job: id}]++
		case a.Result == sync.Denied:
			count[seclog.Event{What: seclog.Refused, Why: seclog.Forbidden, Job: id}]++
		}
	}
	for e, n := range count {
		e.N = n
		s.note(c, e)
	}
}

// securityShown is how many events one page shows.
const securityShown = 50

// securityPage shows the security log to the owner.
func (s *Server) securityPage(c echo.Context) error {
	p := view.SecurityPage{Show: c.QueryParam("show"), Page: pageNumber(c.QueryParam("page")), Unkept: s.Security.Unkept()}
	events, more := s.Security.Read(func(e seclog.Event) bool { return view.SecurityShows(p.Show, e.What) },
		(p.Page-1)*securityShown, securityShown)
	p.More = more
	titles := s.jobTitles()
	links := map[string]string{}
	for id := range titles {
		all, err := s.Store.Links(id)
		if err != nil {
			return err
		}
		for _, l := range all {
			links[l.ID] = l.Name
		}
	}
	for _, e := range events {
		title := titles[e.Job]
		p.Events = append(
			p.Events,
			view.SecurityEvent{At: e.At, Until: e.Until, Times: e.Times, What: e.What,
				Why: e.Why, N: e.N, Job: orElse(title, e.Job), Linked: title != "", JobID: e.Job,
				LinkID: e.Link, LinkName: orElse(links[e.Link], e.LinkName), DeviceID: e.Device, DeviceName: e.DeviceName,
				By: e.By, From: e.From},
		)
	}
	f := s.frame(c, "Security log")
	return s.render(c, http.StatusOK, f, view.Security(f, p))
}

// jobTitles returns the title of every job by its id.
func (s *Server) jobTitles() map[string]string {
	titles := map[string]string{}
	infos, err := s.Store.Jobs(s.Store.System("security log"))
	if err != nil {
		s.Log.Error("jobs not listed", "err", err)
	}
	for _, info := range infos {
		titles[info.ID] = orElse(info.Title, info.ID)
	}
	return titles
}

func pageNumber(typed string) int {
	n := 0
	for _, r := range typed {
		if r < '0' || r > '9' || n > 1000 {
			return 1
		}
		n = 10*n + int(r-'0')
	}
	return max(1, n)
}
