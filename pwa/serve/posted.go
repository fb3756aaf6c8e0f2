package serve

import (
	"garlandry/pwa/form"

	"github.com/labstack/echo/v4"
)

// posted returns the fields of a form's body. It ignores the query, because histories and proxies record addresses.
func posted(c echo.Context) (form.Values, error) {
	if _, err := formValues(c); err != nil {
		return nil, err
	}
	return form.Values(c.Request().PostForm), nil
}
