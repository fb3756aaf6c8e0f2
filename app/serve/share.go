package serve

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	"rsc.io/qr"
)

// sharePage lists a job's helper links.
func (s *Server) sharePage(c echo.Context) error {
	return s.showShare(c, http.StatusOK, view.SharePage{})
}

// createLink makes a helper link and shows its address, this once.
func (s *Server) createLink(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	typed := form.Values{view.ShareName: {in.Get(view.ShareName)}, view.ShareRole: {in.Get(view.ShareRole)}, view.ShareEnds: {in.Get(view.ShareEnds)}}
	wish := store.LinkWish{Name: strings.TrimSpace(typed.Get(view.ShareName)), Role: job.Role(typed.Get(view.ShareRole))}
	state := form.State{Values: typed, Errors: map[string]string{}}
	ends, err := s.linkEnd(c.Param("job"), typed.Get(view.ShareEnds))
	if err != nil {
		state.Errors[view.ShareEnds] = err.Error()
		return s.showShare(c, http.StatusUnprocessableEntity, view.SharePage{State: state})
	}
	wish.Ends = ends
	link, token, err := s.Store.CreateLink(c.Request().Context(), session, c.Param("job"), wish)
	var field *job.FieldError
	if errors.As(err, &field) {
		state.Errors[field.Path] = field.Message
		return s.showShare(c, http.StatusUnprocessableEntity, view.SharePage{State: state})
	}
	if err != nil {
		return err
	}
	return s.showFresh(c, view.FreshLink{Name: link.Name, URL: s.helperLink(c, token)})
}

// linkEnd is when a link ends: the end of the day typed, or three days after the event, or in a month if there is no
// date. A day is taken at the venue's end of day in any zone, so never too early.
func (s *Server) linkEnd(id, typed string) (int64, error) {
	const afterEvent = 3 * 24 * time.Hour
	if typed != "" {
		day, err := time.Parse("2006-01-02", typed)
		if err != nil || day.Year() < 2000 || day.Year() > 2100 {
			return 0, errors.New("must be a day such as 2027-05-11, or empty")
		}
		return day.Add(36 * time.Hour).UnixMilli(), nil
	}
	shared, private, err := s.Store.State(id)
	if err != nil {
		return 0, fmt.Errorf("read the job: %w", err)
	}
	brief := job.Read(id, shared, private).Brief
	for _, moment := range []job.Moment{brief.Down, brief.Doors, job.Moment(brief.Date + "T12:00")} {
		if when, known := moment.Calendar(); known && time.Unix(60*when.Minutes(), 0).Add(afterEvent).After(s.Now()) {
			return time.Unix(60*when.Minutes(), 0).Add(afterEvent).UnixMilli(), nil
		}
	}
	return s.Now().Add(30 * 24 * time.Hour).UnixMilli(), nil
}

// createInvite makes a link for one more device of the owner.
func (s *Server) createInvite(c echo.Context) error {
	token, err := s.Store.CreateOwnerInvite(c.Request().Context())
	if err != nil {
		return err
	}
	return s.showFresh(c, view.FreshLink{Owner: true, URL: s.ownerLink(c, token)})
}

// endLink takes a helper link back, if it is one of this job.
func (s *Server) endLink(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	links, err := s.Store.Links(c.Param("job"))
	if err != nil {
		return err
	}
	id := in.Get(view.ShareLink)
	if !slices.ContainsFunc(links, func(l store.Link) bool { return l.ID == id }) {
		return errNotFound
	}
	if err := s.Store.RevokeLink(c.Request().Context(), session, id); err != nil {
		return err
	}
	return c.Redirect(http.StatusSeeOther, "/jobs/"+c.Param("job")+"/share")
}

// keepHeld takes in an operation that came after its link was closed.
func (s *Server) keepHeld(c echo.Context) error { return s.settleHeld(c, s.Store.AcceptQuarantined) }

// dropHeld leaves it out for good.
func (s *Server) dropHeld(c echo.Context) error { return s.settleHeld(c, s.Store.IgnoreQuarantined) }

func (s *Server) showFresh(c echo.Context, fresh view.FreshLink) error {
	code, err := qr.Encode(fresh.URL, qr.M)
	if err != nil {
		return fmt.Errorf("draw the link as a code: %w", err)
	}
	fresh.QR = modules(code)
	return s.showShare(c, http.StatusOK, view.SharePage{Fresh: &fresh})
}

func modules(code *qr.Code) [][]bool {
	rows := make([][]bool, code.Size)
	for y := range rows {
		rows[y] = make([]bool, code.Size)
		for x := range rows[y] {
			rows[y][x] = code.Black(x, y)
		}
	}
	return rows
}

func (s *Server) showShare(c echo.Context, status int, p view.SharePage) error {
	id := c.Param("job")
	shared, private, err := s.Store.State(id)
	if err != nil {
		return err
	}
	links, err := s.Store.Links(id)
	if err != nil {
		return err
	}
	held, err := s.Store.Quarantine(id)
	if err != nil {
		return err
	}
	for _, l := range links {
		p.Links = append(p.Links, shareRow(l, held))
	}
	for _, h := range held {
		p.Held = append(p.Held, view.Held{Op: h.Op.ID, Name: h.Author.Name, What: heldWords(h), When: h.Proposed})
	}
	late, err := s.Store.Late(id)
	if err != nil {
		return err
	}
	for _, r := range late {
		p.Late = append(p.Late, view.Held{Op: r.ID, Name: r.Author.Name, What: opWords(r.Op), When: r.Effective})
	}
	read := job.Read(id, shared, private)
	f := s.frame(c, "Share").InJob(read)
	f.Local = func(ms int64) (int, bool) { return zoneOffset(read.Brief.Zone, ms) }
	return s.render(c, status, f, view.Share(f, p))
}

func shareRow(l store.Link, held []sync.Held) view.Link {
	row := view.Link{ID: l.ID, Name: l.Name, Role: l.Role, Made: l.Created, Ends: l.Ends, Revoked: l.Revoked > 0}
	for _, d := range l.Devices {
		row.LastSeen = max(row.LastSeen, d.Seen)
	}
	for _, h := range held {
		if h.Author.Link == l.ID {
			row.Held++
		}
	}
	return row
}

// opWords says in words what an operation does.
func opWords(op job.Op) string {
	what := map[job.Kind]string{job.Set: "Set", job.Add: "Add", job.Undo: "Take back", job.Stocktake: "Count"}[op.Kind]
	if what == "" {
		what = "Something a newer version knows about"
	}
	if op.Kind == job.Add {
		what = fmt.Sprintf("%+d", op.Delta)
	}
	if op.Kind == job.Set && len(op.Value) < 60 {
		what = op.Field + " " + string(op.Value)
	}
	return what + " on " + op.Entity
}

// heldWords says in words what an operation would do.
func heldWords(h sync.Held) string {
	words := opWords(h.Op)
	if !h.BeforeEnd {
		words += " (made after the link had ended)"
	}
	return words
}
