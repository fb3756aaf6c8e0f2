package serve

import (
	"net/http"
	"slices"
	"strings"

	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// keptFormBytes is how long a form may be for its answer to carry back what was typed.
const keptFormBytes = 64 << 10

// keptForm gives what was typed into a posted form that could not be taken, if the answer can carry it: a form with
// files, or a very long one, cannot be sent again from here.
func keptForm(c echo.Context) (form.Values, bool) {
	r := c.Request()
	kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
	if r.Method != http.MethodPost || strings.HasPrefix(r.URL.Path, "//") || strings.TrimSpace(kind) != "application/x-www-form-urlencoded" || r.ContentLength < 0 || r.ContentLength > keptFormBytes {
		return nil, false
	}
	if err := r.ParseForm(); err != nil {
		return nil, false
	}
	return form.Values(r.PostForm), true
}

// sendAgain draws a failure with the form that met it, so that nothing typed is lost: one press sends it again.
func sendAgain(address, message string, typed form.Values) g.Node {
	var names []string
	for name := range typed {
		names = append(names, name)
	}
	slices.Sort(names)
	inside := g.Group{h.Method("post"), h.Action(address), h.ID("again"), g.Attr("data-server")}
	for _, name := range names {
		for _, value := range typed[name] {
			inside = append(inside, view.Hidden(name, value))
		}
	}
	return g.Group{
		view.Trouble("That was not saved", message, "What you typed is kept on this page: stay on it and send it again.", "", "", ""),
		h.Form(append(inside, h.Button(h.Type("submit"), h.Class("go"), g.Text("Send it again")))),
	}
}
