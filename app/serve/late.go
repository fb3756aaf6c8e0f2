package serve

import (
	"errors"
	"net/http"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// handIn takes a form that came after its link was closed: what it means waits for the owner. Nothing of the job is shown
// for it, not even what is wrong with the form.
func (s *Server) handIn(c echo.Context, session store.Session, values form.Values) error {
	if session.Job == "" {
		return errClosed
	}
	w := s.world(c)
	w.Job = func(id string) (job.Job, bool) {
		if id != session.Job {
			return job.Job{}, false
		}
		return s.readJob(id, session.Role)
	}
	reply := page.Post(w, c.Request().URL.Path, values)
	if len(reply.Writes) == 0 {
		return errClosed
	}
	for _, write := range reply.Writes {
		if write.Create {
			return errClosed
		}
		err := s.Store.HandIn(c.Request().Context(), session, write.Job, write.Changes)
		var refused *store.Refused
		if errors.As(err, &refused) {
			return &failure{http.StatusForbidden, "closed", "This link has ended, and what you just sent was not kept: " + refused.Why + ".", 0}
		}
		if err != nil {
			return err
		}
	}
	f := s.frame(c, "Link ended")
	return s.render(c, http.StatusAccepted, f, view.Trouble("This link has ended", "It was for a time, or was taken back by whoever runs the job.",
		"What you just sent was handed to whoever runs the job to accept. It does not count until then.", "Tell them, or ask for a new link.", "/scan", "Type a code"))
}
