package serve

import (
	"garlandry/pwa/form"

	"github.com/labstack/echo/v4"
)

// posted gives the fields of a form's body. What stands in the address is left out: a secret must not be taken from
// where histories and proxies keep it.
func posted(c echo.Context) (form.Values, error) {
	if _, err := formValues(c); err != nil {
		return nil, err
	}
	return form.Values(c.Request().PostForm), nil
}
