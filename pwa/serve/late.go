package serve

import (
	"errors"
	"net/http"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// submitLate accepts a form that arrived after its link or device was ended. Its changes wait for the owner. The answer
// shows nothing of the job, not even errors in the form. It refuses forms that create a job.
func (s *Server) submitLate(c echo.Context, session store.Session, values form.Values) error {
	id := session.Job
	if id == "" {
		id = address.JobOf(c.Request().URL.Path)
	}
	w := s.deps(c)
	w.Job = func(asked string) (job.Job, bool) {
		if asked != id {
			return job.Job{}, false
		}
		return s.readJob(id, session.Role)
	}
	reply := page.Post(named(w, postOf(c)), c.Request().URL.Path, values)
	if len(reply.Writes) == 0 {
		return errClosed
	}
	for _, write := range reply.Writes {
		if write.Create || write.Job != id {
			return errClosed
		}
	}
	for _, write := range reply.Writes {
		err := s.Store.Hold(c.Request().Context(), session, store.Post{ID: postOf(c), Job: write.Job}, write.Changes)
		var refused *store.Refused
		if errors.As(err, &refused) {
			return &failure{http.StatusForbidden, "closed",
				"This link has ended. What you just sent was not kept: " + refused.Why + ".", 0}
		}
		if err != nil {
			return err
		}
	}
	markForm(c, formKept)
	if session.Role == job.Owner {
		f := s.frame(c, "Device ended")
		return s.render(c, http.StatusAccepted, f,
			view.Trouble("This device was ended", "The owner ended it, as for a lost phone.",
				"What you just sent waits for the owner to accept it.",
				"Open a new owner link on this device.", address.Scan.Path(), view.LabelTypeCode))
	}
	f := s.frame(c, "Link ended")
	return s.render(c, http.StatusAccepted, f,
		view.Trouble(view.LabelLinkEnded, view.LabelLinkOver,
			"What you just sent waits for the owner to accept it.",
			"Tell them, or ask for a new link.", address.Scan.Path(), view.LabelTypeCode))
}
