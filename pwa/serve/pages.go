package serve

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"time"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/store"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	"maragu.dev/gomponents"
)

// page answers a GET of every page of package page.
func (s *Server) page(c echo.Context) error {
	if session, in := sessionOf(c); in && session.Closed != "" && c.Request().URL.Path != address.SignOut.Path() {
		f := s.frame(c, "Link ended")
		return s.render(c, http.StatusForbidden, f, view.JoinEnded(f))
	}
	if _, in := sessionOf(c); !in && c.Request().URL.Path == address.Home.Path() {
		f := s.frame(c, view.LabelJoin)
		return s.render(
			c,
			http.StatusForbidden,
			f,
			view.Scan(f, view.JoinForm{}),
		) // a stranger's first page asks for the link
	}
	w := s.deps(c)
	w.Flash, w.Undo = s.whatWasDone(c)
	reply := page.Get(w, c.Request().URL.Path, form.Values(c.QueryParams()))
	if reply.Redirect != "" && reply.Flash == "" {
		reply.Flash, reply.Undo = w.Flash, w.Undo
	}
	s.relaxer.start(s.stop)
	return s.reply(c, reply)
}

// form handles a posted form: pwa/page decides what it means, then it is written, and only then answered.
func (s *Server) form(c echo.Context) error {
	session, _ := sessionOf(c)
	values, err := formValues(c)
	if err != nil {
		return err
	}
	if c.Request().URL.Path == address.Phone.Path() && values.Get(view.FieldAct) == "theme" {
		return s.setTheme(c, values.Get("theme"))
	}
	if session.Closed != "" {
		return s.submitLate(c, session, values)
	}
	reply := page.Post(named(s.deps(c), postOf(c)), c.Request().URL.Path, values)
	for _, w := range reply.Writes {
		err := s.write(c, session, w)
		if errors.Is(err, store.ErrClosed) { // revoked just now
			return s.submitLate(c, session, values)
		}
		if err != nil {
			return err
		}
	}
	return s.replyPost(c, reply)
}

// formValues reads a form, files as text.
func formValues(c echo.Context) (form.Values, error) {
	params, err := c.FormParams()
	if errors.Is(err, echo.ErrStatusRequestEntityTooLarge) {
		return nil, errTooLarge
	}
	if err != nil {
		return nil, errBadForm
	}
	values := form.Values(params)
	if m := c.Request().MultipartForm; m != nil {
		for name, files := range m.File {
			for _, header := range files {
				text, err := fileText(header)
				if err != nil {
					return nil, errBadForm
				}
				if text != "" || !values.Has(name) {
					values[name] = append(values[name], text)
				}
			}
		}
	}
	return values, nil
}

// reply sends the reply of package page.
func (s *Server) reply(c echo.Context, r page.Reply) error {
	switch {
	case r.File != nil:
		c.Response().Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", r.File.Name))
		return c.Blob(http.StatusOK, r.File.Mime, r.File.Data)
	case r.Redirect != "":
		return s.seeOther(c, r.Redirect, r.Flash, r.Undo)
	}
	s.noteAnswered(c, r.Status)
	return s.send(c, max(r.Status, http.StatusOK), view.Document(r.Frame, r.Body))
}

// render draws one of this package's own pages.
func (s *Server) render(c echo.Context, status int, f view.Frame, body gomponents.Node) error {
	return s.send(c, status, view.Document(f, body))
}

// send renders to a buffer first, so that a failed drawing can still become an error.
func (s *Server) send(c echo.Context, status int, document gomponents.Node) error {
	var b bytes.Buffer
	if err := document.Render(&b); err != nil {
		return fmt.Errorf("draw page: %w", err)
	}
	return c.HTMLBlob(status, b.Bytes())
}

// frame returns the frame of a page of this package.
func (s *Server) frame(c echo.Context, title string) view.Frame {
	f := view.Frame{Title: title, Path: c.Request().URL.Path, Assets: s.assets(), Now: s.nowMS(),
		Units: unitsOf(c), Theme: themeOf(c), OverHTTP: s.plainHTTP(c.Request())}
	if session, in := sessionOf(c); in {
		f.Role, f.Name = session.Role, session.Name
		f.Device.ServerFull = s.Store.Trouble() != nil
	}
	f.Flash, f.Undo = s.whatWasDone(c)
	return f
}

func (s *Server) assets() view.Assets {
	a := view.Assets{CSS: s.Shell.URL("css/app.css"), Picture: s.Shell.URL("css/picture.css"),
		Narrow: s.Shell.URL("css/narrow.css"),
		Wide:   s.Shell.URL("css/wide.css"), Print: s.Shell.URL("css/print.css"), Script: s.Shell.URL("js/main.js"),
		Look: s.Shell.URL("js/look.js"), Recall: s.Shell.URL("js/recall.js"), Manifest: "/manifest.webmanifest",
		Icon:  s.Shell.URL("icons/icon.svg"),
		Touch: s.Shell.URL("icons/touch-180.png")}
	if s.Shell.Built() {
		a.Build, a.Core, a.Loader = s.Shell.Build, s.Shell.Core, s.Shell.Loader
	}
	return a
}

// shellPage draws the page that the service worker answers with: everything except data.
func (s *Server) shellPage(c echo.Context) error {
	f := view.Frame{Title: "", Path: address.Home.Path(), Assets: s.assets(), Now: s.nowMS()}
	f.Assets.Shell = true
	c.Response().Header().Set("Cache-Control", "no-cache")
	return s.render(c, http.StatusOK, f, view.Waiting(f))
}

// errorPage draws a failure.
func (s *Server) errorPage(c echo.Context, f *failure) error {
	frame := s.frame(c, "Trouble")
	switch {
	case c.Request().Method == http.MethodPost && f.status != http.StatusForbidden && f.status != http.StatusNotFound:
		if typed, can := keptForm(c); can {
			return s.render(c, f.status, frame, sendAgain(c, f, typed))
		}
		if f != errStranger {
			return s.render(
				c,
				f.status,
				frame,
				view.Trouble(view.LabelNotSaved, f.message, "",
					"Go back in your browser, where your text should still be, and send it again.", "", ""),
			)
		}
		return s.render(c, f.status, frame, view.Scan(frame, view.JoinForm{}))
	case f == errForeign:
		return s.render(
			c,
			f.status,
			frame,
			view.Trouble("This came from another website",
				"Another page or app may have tried to act in your name.",
				view.LabelUnchanged, "If it was you, open the app and do it there.", address.Home.Path(), view.LabelOpenApp),
		)
	case f == errClosed:
		return s.render(
			c,
			f.status,
			frame,
			gomponents.Group{view.Trouble(view.LabelLinkEnded,
				view.LabelLinkOver, view.LabelUnchanged,
				view.LabelNewLink, address.Scan.Path(), view.LabelTypeCode), typedBack(c)},
		)
	case f == errStranger:
		return s.render(c, f.status, frame, view.Scan(frame, view.JoinForm{}))
	case f.status == http.StatusNotFound:
		return s.render(c, f.status, frame, view.NotFound(frame))
	case f.status == http.StatusForbidden:
		return s.render(c, f.status, frame, view.Refused(frame, f.message))
	}
	return s.render(c, f.status, frame, view.Trouble(view.LabelFailed, f.message, "", "", frame.Path, "Back"))
}

// unitsOf returns the units of the visitor's region, feet if the browser does not say.
func unitsOf(c echo.Context) measure.System {
	return measure.ByLanguage(c.Request().Header.Get("Accept-Language"), measure.Imperial)
}

// deps returns the dependencies of pages for this visitor.
func (s *Server) deps(c echo.Context) page.Deps {
	session, in := sessionOf(c)
	w := page.Deps{Now: s.nowMS(), NewID: s.NewID, Assets: s.assets(), LocalMinutes: zoneOffset,
		Units: unitsOf(c), Theme: themeOf(c), OverHTTP: s.plainHTTP(c.Request())}
	// A Macintosh may be an iPad, whose steps differ: only the phone's core can tell.
	if p := view.PlatformOf(c.Request().UserAgent(), 0); p != view.MacSafari {
		w.Device.Platform = p
	}
	if !in {
		w.Jobs = func() []view.JobRow { return nil }
		w.Job = func(string) (job.Job, bool) { return job.Job{}, false }
		w.Plan = func(j job.Job) plan.Plan { return plan.Make(j) }
		return w
	}
	w.Visitor = page.Visitor{Role: session.Role, Name: session.Name, Link: session.Link}
	w.Job = func(id string) (job.Job, bool) { return s.job(session, id) }
	w.Plan = func(j job.Job) plan.Plan { return s.plans.Plan(j, plan.DesignFingerprint(j)) }
	w.Clocks, w.Model = &s.clocks, &s.relaxer.model
	w.Held, w.Crowded = s.held, s.crowded
	w.Device.ServerFull = s.Store.Trouble() != nil
	w.Jobs = func() []view.JobRow { return s.jobRows(session, w) }
	w.Deleted = func() int {
		all, err := s.deleted(session)
		if err != nil {
			s.Log.Error("deleted jobs not counted", "err", err)
		}
		return restorable(all)
	}
	w.Leaving = func(string) view.Leaving { return s.leaving(session) }
	return w
}

// job returns a job as the session may see it.
func (s *Server) job(session store.Session, id string) (job.Job, bool) {
	if !sees(session, id) {
		return job.Job{}, false
	}
	return s.readJob(id, session.Role)
}

// readJob returns a job as the role may see it.
func (s *Server) readJob(id string, role job.Role) (job.Job, bool) {
	shared, private, err := s.Store.State(id)
	if err != nil {
		if !errors.Is(err, store.ErrNotFound) {
			s.Log.Error("job not read", "job", id, "err", err)
		}
		return job.Job{}, false
	}
	if role != job.Owner {
		private = nil
	}
	return job.Read(id, shared, private), true
}

// held counts the operations of a job that wait for the owner's decision.
func (s *Server) held(id string) int {
	held, err := s.Store.Quarantine(id)
	if err != nil {
		s.Log.Error("held operations not counted", "job", id, "err", err)
	}
	return len(held)
}

// crowded reports whether a link has nearly reached its limit in a job.
func (s *Server) crowded(id string) bool {
	crowded, err := s.Store.Crowded(id)
	if err != nil {
		s.Log.Error("use of a job not counted", "job", id, "err", err)
	}
	return crowded
}

func (s *Server) jobRows(session store.Session, w page.Deps) []view.JobRow {
	infos, err := s.Store.Jobs(session)
	if err != nil {
		s.Log.Error("jobs not listed", "err", err)
		return nil
	}
	var rows []view.JobRow
	for _, info := range infos {
		row, known := s.rows.get(session.Role, info)
		if !known {
			j, there := s.job(session, info.ID)
			if !there {
				continue
			}
			row = page.Row(j, w.Plan(j))
			row.Design = plan.DesignFingerprint(j)
			s.rows.put(session.Role, info, row)
		}
		rows = append(rows, row)
	}
	s.cover(rows)
	return rows
}

// zoneOffset returns the minutes east of UTC in a named zone at a time. It reports false for an unknown zone.
func zoneOffset(zone string, ms int64) (int, bool) {
	place, err := time.LoadLocation(zone)
	if err != nil || zone == "" || zone == "Local" {
		return 0, false
	}
	_, seconds := time.UnixMilli(ms).In(place).Zone()
	return seconds / 60, true
}
