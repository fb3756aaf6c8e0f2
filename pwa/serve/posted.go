package serve

import (
	"garlandry/pwa/form"

	"github.com/labstack/echo/v4"
)

// posted gives the fields of a form's body. It ignores the query: secrets must not be in addresses, which histories and
// proxies record.
func posted(c echo.Context) (form.Values, error) {
	if _, err := formValues(c); err != nil {
		return nil, err
	}
	return form.Values(c.Request().PostForm), nil
}
