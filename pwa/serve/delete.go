package serve

import (
	"net/http"

	"garlandry/app/job"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// deletePage asks before a job is deleted.
func (s *Server) deletePage(c echo.Context) error {
	id := c.Param("job")
	j, there := s.readJob(id, job.Owner)
	if !there {
		return errNotFound
	}
	links, err := s.Store.Links(id)
	if err != nil {
		return err
	}
	open := 0
	for _, l := range links {
		if l.Revoked == 0 && l.Ends > s.nowMS() {
			open++
		}
	}
	clients, err := s.Store.ClientLinks(id)
	if err != nil {
		return err
	}
	for _, l := range clients {
		if l.Revoked == 0 && l.Ends > s.nowMS() {
			open++
		}
	}
	f := s.frame(c, "Delete").InJob(j)
	return s.render(c, http.StatusOK, f, view.DeleteJob(f, j, open))
}

// deleteJob deletes a job. The list of deleted jobs, which follows, takes it back.
func (s *Server) deleteJob(c echo.Context) error {
	session, _ := sessionOf(c)
	id := c.Param("job")
	if err := s.Store.DeleteJob(c.Request().Context(), session, id); err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.JobDeleted, Job: id})
	return s.seeOther(c, address.Deleted.Path(), "Deleted.", nil)
}

// deletedPage lists the deleted jobs that can be restored.
func (s *Server) deletedPage(c echo.Context) error {
	session, _ := sessionOf(c)
	all, err := s.deleted(session)
	if err != nil {
		return err
	}
	var rows []view.DeletedJob
	for _, d := range all {
		if !d.Gone {
			rows = append(rows, view.DeletedJob{ID: d.ID, Title: d.Title, Date: d.Date, At: d.At, Ends: d.Ends})
		}
	}
	f := s.frame(c, "Deleted")
	return s.render(c, http.StatusOK, f, view.DeletedJobs(f, rows))
}

// restoreJob brings a deleted job back.
func (s *Server) restoreJob(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	id := in.Get(view.FieldJob)
	if err := s.Store.RestoreJob(c.Request().Context(), session, id); err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.JobRestored, Job: id})
	return s.seeOther(c, address.Job.Path(id), "Restored.", nil)
}

// deleted lists the deleted jobs. First it removes for good those whose thirty days are over.
func (s *Server) deleted(session store.Session) ([]store.Deleted, error) {
	gone, err := s.Store.RemoveDeleted()
	if err != nil {
		s.Log.Error("deleted jobs not removed", "err", err) // a full disk; they are hidden all the same
	}
	for _, id := range gone {
		s.Security.Add(seclog.Event{What: seclog.JobGone, Job: id})
	}
	return s.Store.Deleted(session)
}

// restorable counts the deleted jobs that the owner can restore.
func restorable(all []store.Deleted) int {
	n := 0
	for _, d := range all {
		if !d.Gone {
			n++
		}
	}
	return n
}

// deletedRow tells a phone of the owner that a job was deleted.
type deletedRow struct {
	ID   string `json:"id"`
	Gone bool   `json:"gone,omitempty"` // it cannot be restored
}

// deletedRows lists the deleted jobs for a phone: none for a helper.
func (s *Server) deletedRows(session store.Session) ([]deletedRow, error) {
	if session.Role != job.Owner {
		return nil, nil
	}
	all, err := s.deleted(session)
	var rows []deletedRow
	for _, d := range all {
		rows = append(rows, deletedRow{d.ID, d.Gone})
	}
	return rows, err
}

// routesOfDeletion registers what deletes and restores jobs.
func (s *Server) routesOfDeletion(e *echo.Echo, forms *limiter) {
	owned := []echo.MiddlewareFunc{bodyLimit(joinBytes), s.sameSite, s.member, s.owner, limited(forms, bySession)}
	e.GET(address.DeleteJob.Route(), s.deletePage, owned...)
	e.POST(address.DeleteJob.Route(), s.deleteJob, owned...)
	e.GET(address.Deleted.Route(), s.deletedPage, owned...)
	e.POST(address.Deleted.Route(), s.restoreJob, owned...)
}
