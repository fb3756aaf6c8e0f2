package serve

import (
	"context"
	"net/http"

	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// settleHeld accepts or rejects the operations named in the form.
func (s *Server) settleHeld(c echo.Context, decide func(context.Context, store.Session, string, []string) error) error {
	session, _ := sessionOf(c)
	values, err := posted(c)
	if err != nil {
		return err
	}
	if err := decide(c.Request().Context(), session, c.Param("job"), values[view.ShareOp]); err != nil {
		return err
	}
	return c.Redirect(http.StatusSeeOther, address.Share.Path(c.Param("job")))
}
