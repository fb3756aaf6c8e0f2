package serve

import (
	"errors"
	"net/http"
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// asidePage lists the unusual operations of a job. It neither reads nor plans the job, because that may be impossible.
func (s *Server) asidePage(c echo.Context) error { return s.showAside(c, http.StatusOK, "") }

func (s *Server) showAside(c echo.Context, status int, fault string) error {
	suspects, err := s.Store.Suspects(c.Param("job"))
	if err != nil {
		return err
	}
	page := view.AsidePage{Job: c.Param("job"), Error: fault}
	for _, x := range suspects {
		page.Ops = append(page.Ops, view.AsideOp{ID: x.Rec.ID, Kind: string(x.Rec.Kind), Entity: x.Rec.Entity,
			Field: x.Rec.Field, Name: x.Rec.Author.Name, When: x.Rec.Effective, Bytes: x.Bytes, Unknown: x.Unknown,
			Harmful: x.Harmful, Aside: x.Aside, Why: x.Why, By: x.By, At: x.At})
	}
	f := s.frame(c, "Set aside")
	return s.render(c, status, f, view.Aside(f, page))
}

// setAside sets an operation aside or puts it back.
func (s *Server) setAside(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	aside, flash := in.Get(view.AsideAct) != view.AsideBack, "Set aside."
	if !aside {
		flash = "Put back."
	}
	err = s.Store.SetAside(c.Request().Context(), session, c.Param("job"), strings.TrimSpace(in.Get(view.AsideOpID)),
		aside, in.Get(view.AsideReason))
	if errors.Is(err, job.ErrInvalid) {
		return s.showAside(c, http.StatusUnprocessableEntity, "That reason is too long. Nothing was changed.")
	}
	if err != nil {
		return err
	}
	return s.seeOther(c, address.Aside.Path(c.Param("job")), flash, nil)
}
