package serve

import (
	"net/http"
	"net/url"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/labstack/echo/v4"
)

// A page's script sends each form with an id in headerPost and repeats it with that id if no answer comes. Echo has no
// such idempotency keys. Only headerForm tells the result, because a proxy may answer with any status.
const (
	headerPost  = "Idempotency-Key"
	headerForm  = "Garlandry-Form"
	formKept    = "kept"    // it is on disk, now or from an earlier try
	formRefused = "refused" // sending it again would not help

	mostRedirects = 4
)

// postOf returns the id that a form was sent with, "" for none.
func postOf(c echo.Context) job.Post {
	post := job.Post(c.Request().Header.Get(headerPost))
	if c.Request().Method != http.MethodPost || !post.Valid() {
		return ""
	}
	return post
}

// named makes new ids follow from the id of the post.
func named(w page.Deps, post job.Post) page.Deps {
	if post == "" {
		return w
	}
	made := 0
	w.NewID = func() string {
		made++
		return post.EntityID(made - 1)
	}
	return w
}

func (s *Server) write(c echo.Context, session store.Session, w page.Write) error {
	ctx, post := c.Request().Context(), postOf(c)
	switch {
	case post != "":
		return s.Store.WritePost(ctx, session, store.Post{ID: post, Job: w.Job, Create: w.Create}, w.Changes)
	case w.Create:
		_, err := s.Store.CreateJob(ctx, session, w.Job, w.Changes)
		return err
	}
	_, err := s.Store.Write(ctx, session, w.Job, w.Changes)
	return err
}

// markForm tells the page's script the result of its form.
func markForm(c echo.Context, what string) {
	if postOf(c) != "" {
		c.Response().Header().Set(headerForm, what)
	}
}

// final reports whether the same form would fail again.
func (f *failure) final() bool {
	switch f.status {
	case http.StatusBadRequest,
		http.StatusForbidden,
		http.StatusNotFound,
		http.StatusConflict,
		http.StatusGone,
		http.StatusRequestEntityTooLarge:
		return true
	}
	return false
}

// replyPost answers a form whose writes are on disk. A script gets the next page in the same answer, because a second
// request may not get through.
func (s *Server) replyPost(c echo.Context, r page.Reply) error {
	if postOf(c) == "" {
		return s.reply(c, r)
	}
	if r.Status >= http.StatusBadRequest {
		id := address.JobOf(c.Request().URL.Path)
		taken, err := s.Store.Taken(id, postOf(c))
		if err != nil {
			return err
		}
		if !taken {
			markForm(c, formRefused)
			return s.reply(c, r)
		}
		r = page.Reply{Redirect: address.Job.Path(id)}
	}
	markForm(c, formKept)
	for range mostRedirects {
		if r.Redirect == "" {
			break
		}
		to, err := url.Parse(r.Redirect)
		if err != nil || page.ServerOnly(to.Path) {
			c.Response().Header().Set("Content-Location", r.Redirect)
			return c.NoContent(http.StatusNoContent)
		}
		to.Fragment = ""
		c.Response().Header().Set("Content-Location", to.RequestURI())
		w := s.deps(c)
		w.Flash, w.Undo = r.Flash, r.Undo
		r = page.Get(w, to.Path, form.Values(to.Query()))
	}
	r.Status = http.StatusOK
	return s.reply(c, r)
}
