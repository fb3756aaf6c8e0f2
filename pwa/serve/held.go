package serve

import (
	"context"

	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// settleHeld accepts or rejects the operations named in the form. Done begins the words that say so.
func (s *Server) settleHeld(c echo.Context, decide func(context.Context, store.Session, string, []string) error,
	done string) error {
	session, _ := sessionOf(c)
	values, err := posted(c)
	if err != nil {
		return err
	}
	ops := values[view.ShareOp]
	if err := decide(c.Request().Context(), session, c.Param("job"), ops); err != nil {
		return err
	}
	flash := view.LabelUnchanged
	if len(ops) > 0 {
		flash = done + view.Many(len(ops), "change") + "."
	}
	return s.seeOther(c, address.Share.Path(c.Param("job")), flash, nil)
}
