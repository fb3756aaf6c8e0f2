package serve

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// keptFormBytes limits the forms that an error page returns to a stranger. A member gets every form up to the server's
// own limit.
const keptFormBytes = 64 << 10

// keptForm returns what was typed into a form that failed, if it is not too long. For an import it is the text of the
// file, as if it had been pasted.
func keptForm(c echo.Context) (form.Values, bool) {
	r := c.Request()
	limit := int64(keptFormBytes)
	if _, in := sessionOf(c); in {
		limit = formBytes
	}
	kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
	kind = strings.TrimSpace(kind)
	if r.Method != http.MethodPost || strings.HasPrefix(r.URL.Path, "//") ||
		kind != "application/x-www-form-urlencoded" && kind != "multipart/form-data" ||
		r.ContentLength < 0 || r.ContentLength > limit ||
		http.NewCrossOriginProtection().Check(r) != nil {
		return nil, false
	}
	all, err := formValues(c) // with the query
	if err != nil {
		return nil, false
	}
	typed := form.Values{}
	for name, values := range r.PostForm {
		typed[name] = values
	}
	if r.URL.Path == address.Import.Path() {
		if file := all.Get(view.ImportFile); strings.TrimSpace(file) != "" {
			typed[view.ImportText] = []string{file}
		}
		delete(typed, view.ImportFile)
	}
	return typed, true
}

// sendAgain draws a failure with the form that caused it, so that one tap sends it again. The text can be edited if it
// would fail again unchanged, or if it comes from a file.
func sendAgain(c echo.Context, f *failure, typed form.Values) g.Node {
	next := "What you typed is kept on this page: stay on it and send it again."
	if f == errStranger {
		next = "What you typed is kept on this page: open your link in another tab, then come back here and send it again."
	}
	change := f.status == http.StatusBadRequest || f.status == http.StatusRequestEntityTooLarge ||
		c.Request().URL.Path == address.Import.Path()
	return g.Group{
		view.Trouble(view.LabelNotSaved, f.message, next, "", "", ""),
		view.PostForm(view.ByServer, "again", c.Request().URL.RequestURI(), h.Class("edit"), fields(typed, change),
			view.Submit(view.Primary, g.Text("Send it again"))),
	}
}

// fields draws what was typed: hidden, or as text to edit and copy.
func fields(typed form.Values, shown bool) g.Group {
	var names []string
	for name := range typed {
		names = append(names, name)
	}
	slices.Sort(names)
	var drawn g.Group
	for _, name := range names {
		for i, value := range typed[name] {
			if !shown {
				drawn = append(drawn, view.Hidden(name, value))
				continue
			}
			id := "again-" + name + "-" + strconv.Itoa(i)
			drawn = append(drawn, view.FieldBox(id, name, "", // browsers drop a leading line break
				h.Textarea(h.ID(id), h.Name(name), h.Rows("4"), g.Text("\n"+value))))
		}
	}
	return drawn
}

// typedBack draws what was typed into a form that is refused for good, so that it can be copied.
func typedBack(c echo.Context) g.Node {
	typed, can := keptForm(c)
	if !can || len(typed) == 0 {
		return g.Group{}
	}
	return view.Panel("What you sent", "", h.ID("typed"), fields(typed, true))
}
