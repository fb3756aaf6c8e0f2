package page

import (
	"strings"

	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// back returns the page that a form names to return to, if it is one of ours; else the job's first page.
func (r *request) back() string {
	if to := r.in.Get(view.FieldBack); ourPage(to) {
		return to
	}
	return r.at(address.Job)
}

// mostBack is the longest address to return to, with its query, in bytes.
const mostBack = 800

// ourPage reports whether an address is one of our pages, so that no form can send a visitor elsewhere.
func ourPage(to string) bool {
	if len(to) > mostBack || !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") {
		return false
	}
	for _, c := range []byte(to) {
		if c <= ' ' || c > '~' || c == '\\' {
			return false
		}
	}
	path, _ := cutQuery(to)
	return Known(false, path)
}

// cutQuery splits an address into its path and the values of its query. It ignores an invalid query.
func cutQuery(to string) (string, form.Values) {
	to, _, _ = strings.Cut(to, "#")
	path, query, _ := strings.Cut(to, "?")
	values, err := form.ParseQuery(query)
	if err != nil {
		return path, form.Values{}
	}
	return path, values
}

// rejected draws the page that a form was on, with an error message.
func (r *request) rejected(message string) *Reply {
	path, query := cutQuery(r.back())
	b := &request{Deps: r.Deps, path: path, in: query, alert: message}
	b.frame = r.frame
	b.frame.Path, b.frame.Flash, b.frame.Undo, b.frame.Mistyped.Why = path, "", nil, message
	reply := b.answer(false)
	if reply.Redirect != "" || reply.File != nil || reply.Body == nil {
		return r.trouble(view.LabelFailed, message, "Go back and try again.")
	}
	if reply.Status == statusOK {
		reply.Status = statusWrong
	}
	return reply
}
