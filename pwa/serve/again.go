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

// keptFormBytes is how long a form of somebody unknown may be for its answer to carry back what was typed; of a member
// it is what a form may be at all.
const keptFormBytes = 64 << 10

// keptForm gives what was typed into a posted form that could not be taken, if the answer can carry it. Of an import it
// is the text of the file, as if it had been pasted.
func keptForm(c echo.Context) (form.Values, bool) {
	r := c.Request()
	limit := int64(keptFormBytes)
	if _, in := sessionOf(c); in {
		limit = formBytes
	}
	kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
	kind = strings.TrimSpace(kind)
	if r.Method != http.MethodPost || strings.HasPrefix(r.URL.Path, "//") || kind != "application/x-www-form-urlencoded" && kind != "multipart/form-data" ||
		r.ContentLength < 0 || r.ContentLength > limit ||
		http.NewCrossOriginProtection().Check(r) != nil {
		return nil, false
	}
	all, err := formValues(c) // with what stands in the address
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

// sendAgain draws a failure with the form that met it, so that nothing typed is lost: one press sends it again. Where
// it would only fail again as it is, or is the text of a file, it can be changed before.
func sendAgain(c echo.Context, f *failure, typed form.Values) g.Node {
	next := "What you typed is kept on this page: stay on it and send it again."
	if f == errStranger {
		next = "What you typed is kept on this page: open your link in another tab, then come back here and send it again."
	}
	change := f.status == http.StatusBadRequest || f.status == http.StatusRequestEntityTooLarge ||
		c.Request().URL.Path == address.Import.Path()
	inside := g.Group{h.Method("post"), h.Action(c.Request().URL.RequestURI()), h.ID("again"), h.Class("edit"),
		g.Attr("data-server")}
	inside = append(inside, fields(typed, change)...)
	return g.Group{
		view.Trouble("That was not saved", f.message, next, "", "", ""),
		h.Form(append(inside, h.Button(h.Type("submit"), h.Class("go"), g.Text("Send it again")))),
	}
}

// fields draws what was typed: hidden, or as text that can be changed and copied.
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
			drawn = append(drawn, h.Div(h.Class("field"), h.Label(h.For(id), g.Text(name)),
				h.Textarea(h.ID(id), h.Name(name), h.Rows("4"), g.Text("\n"+value)))) // browsers leave out a first line's end
		}
	}
	return drawn
}

// typedBack draws what was typed into a form that is not taken any more, to be copied or shown.
func typedBack(c echo.Context) g.Node {
	typed, can := keptForm(c)
	if !can || len(typed) == 0 {
		return g.Group{}
	}
	return h.Section(h.ID("typed"), h.Class("panel"), h.H2(g.Text("What you sent")), fields(typed, true))
}
