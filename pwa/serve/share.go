package serve

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/app/sync/server"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	"rsc.io/qr"
)

// sharePage shows a job's helper links.
func (s *Server) sharePage(c echo.Context) error {
	return s.showShare(c, http.StatusOK, view.SharePage{})
}

// createLink creates a helper link and shows its address once.
func (s *Server) createLink(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	typed := form.Values{view.ShareName: {in.Get(view.ShareName)}, view.ShareRole: {in.Get(view.ShareRole)},
		view.ShareEnds: {in.Get(view.ShareEnds)}}
	wish := store.LinkWish{Name: strings.TrimSpace(typed.Get(view.ShareName)), Role: job.Role(typed.Get(view.ShareRole))}
	state := form.State{Values: typed, Errors: map[string]string{}}
	ends, err := s.linkEnd(c.Param("job"), typed.Get(view.ShareEnds), helperDays)
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
	s.note(c, seclog.Event{What: seclog.LinkMade, Job: link.Job, Link: link.ID, LinkName: link.Name})
	return s.showFresh(c, view.FreshLink{Name: link.Name, URL: s.helperLink(c, token, link.Name)})
}

// How many days after the event links end.
const (
	helperDays = 3
	clientDays = 30
)

// linkEnd returns when a link ends: at the end of the typed day, else some days after the event, else thirty days from
// now. Days are those of the job's place.
func (s *Server) linkEnd(id, typed string, afterEvent int) (int64, error) {
	shared, private, err := s.Store.State(id)
	if err != nil {
		return 0, fmt.Errorf("read the job: %w", err)
	}
	brief := job.Read(id, shared, private).Brief
	place := placeOf(brief.Zone)
	if typed != "" {
		day, err := time.Parse(time.DateOnly, typed)
		if err != nil || day.Year() < 2000 || day.Year() > 2100 {
			return 0, errors.New("must be a day such as 2027-05-11, or empty")
		}
		return endOf(day, 0, place), nil
	}
	for _, moment := range []job.Moment{brief.Down, brief.Doors, job.Moment(brief.Date + "T12:00")} {
		when, known := moment.Time()
		if !known {
			continue
		}
		if ends := endOf(when, afterEvent, place); ends > s.nowMS() {
			return ends, nil
		}
	}
	return endOf(s.Now().In(place), 30, place), nil
}

// endOf returns the end of the day some days later, at a place, in Unix milliseconds.
func endOf(day time.Time, later int, place *time.Location) int64 {
	return time.Date(day.Year(), day.Month(), day.Day()+later+1, 0, 0, 0, 0, place).UnixMilli()
}

// placeOf returns the location of a time zone. For an unknown zone it returns where a day ends last on Earth, so no
// link ends too early.
func placeOf(zone string) *time.Location {
	place, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return time.FixedZone("the last place", -12*60*60)
	}
	return place
}

// createInvite creates a link for another device of the owner.
func (s *Server) createInvite(c echo.Context) error {
	session, _ := sessionOf(c)
	token, err := s.Store.CreateOwnerInvite(c.Request().Context(), session)
	if err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.InviteMade})
	return s.showFresh(c, view.FreshLink{Owner: true, URL: s.ownerLink(c, token)})
}

// endLink ends a helper link of this job.
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
	s.note(c, seclog.Event{What: seclog.LinkEnded, Job: c.Param("job"), Link: id})
	return s.seeOther(c, address.Share.Path(c.Param("job")), "Ended the link.", nil)
}

// keepHeld accepts operations that arrived after their link had ended.
func (s *Server) keepHeld(c echo.Context) error {
	return s.settleHeld(c, s.Store.AcceptQuarantined, "Accepted ")
}

// dropHeld rejects them for good.
func (s *Server) dropHeld(c echo.Context) error {
	return s.settleHeld(c, s.Store.IgnoreQuarantined, "Rejected ")
}

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
	read := job.Read(id, shared, private)
	session, _ := sessionOf(c)
	p.People = sharePeople(read, session.Name)
	for _, l := range links {
		p.Links = append(p.Links, shareRow(l, held, placeOf(read.Brief.Zone)))
	}
	if p.Clients, err = s.clientLinks(id, placeOf(read.Brief.Zone)); err != nil {
		return err
	}
	if p.Room, err = s.room(id, links); err != nil {
		return err
	}
	words := view.OpWords(read, s.plans.Plan(read, plan.DesignFingerprint(read)))
	for _, h := range held {
		p.Held = append(p.Held,
			view.Held{Op: h.Op.ID, Name: h.Author.Name, What: words(h.Op), When: h.Proposed, BeforeEnd: h.BeforeEnd})
	}
	late, err := s.Store.Late(id)
	if err != nil {
		return err
	}
	for _, r := range late {
		p.Late = append(p.Late, view.Held{Op: r.ID, Name: r.Author.Name, What: words(r.Op), When: r.Effective})
	}
	if p.Devices, err = s.ownDevices(session); err != nil {
		return err
	}
	f := s.frame(c, "Share").InJob(read)
	f.Local = func(ms int64) (int, bool) { return zoneOffset(read.Brief.Zone, ms) }
	return s.render(c, status, f, view.Share(f, p))
}

// sharePeople lists the crew by name, each once, without the owner who looks.
func sharePeople(j job.Job, owner string) []view.SharePerson {
	var people []view.SharePerson
	seen := map[string]bool{strings.ToLower(strings.TrimSpace(owner)): true, "": true}
	for _, m := range j.Crew {
		if key := strings.ToLower(strings.TrimSpace(m.Name)); !seen[key] && m.Name != job.UnnamedOwner {
			seen[key] = true
			people = append(people, view.SharePerson{ID: m.ID, Name: m.Name})
		}
	}
	return people
}

func shareRow(l store.Link, held []server.Held, place *time.Location) view.Link {
	row := view.Link{ID: l.ID, Name: l.Name, Role: l.Role, Made: l.Created, Ends: l.Ends,
		Until: time.UnixMilli(l.Ends - 1).In(place).Format(time.DateOnly), Revoked: l.Revoked > 0}
	var others []string
	for _, d := range l.Devices {
		row.Devices = append(row.Devices, view.LinkDevice{ID: d.Session, Label: d.Label, Seen: d.Seen})
		row.LastSeen = max(row.LastSeen, d.Seen)
		if d.Name != "" && d.Name != l.Name && !slices.Contains(others, d.Name) {
			others = append(others, d.Name)
		}
	}
	row.As = strings.Join(others, ", ")
	for _, h := range held {
		if h.Author.Link == l.ID {
			row.Held++
		}
	}
	return row
}
