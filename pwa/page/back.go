package page

import (
	"strings"

	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// back gives the page that a form wants to come back to, if it is one of ours; else the job's first page.
func (a *ask) back() string {
	if to := a.in.Get(view.FieldBack); own(to) {
		return to
	}
	return a.at("")
}

// own reports whether an address is one of our pages, so that no form can send a visitor elsewhere.
func own(to string) bool {
	if len(to) > 2*longestPath || !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") {
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

// cutQuery parts an address into its path and the values of its query.
func cutQuery(address string) (string, form.Values) {
	address, _, _ = strings.Cut(address, "#")
	path, query, _ := strings.Cut(address, "?")
	values := form.Values{}
	for _, pair := range strings.Split(query, "&") {
		if key, value, _ := strings.Cut(pair, "="); key != "" {
			values[unescape(key)] = append(values[unescape(key)], unescape(value))
		}
	}
	return path, values
}

// unescape reads percent signs and plus signs of a query; what cannot be read stays as it stands.
func unescape(text string) string {
	if !strings.ContainsAny(text, "%+") {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		switch {
		case text[i] == '+':
			b.WriteByte(' ')
		case text[i] == '%' && i+2 < len(text) && hex(text[i+1]) >= 0 && hex(text[i+2]) >= 0:
			b.WriteByte(byte(hex(text[i+1])<<4 | hex(text[i+2])))
			i += 2
		default:
			b.WriteByte(text[i])
		}
	}
	return b.String()
}

func hex(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'a' && c <= 'f':
		return int(c-'a') + 10
	case c >= 'A' && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}

// again draws the page that a form stood on, with what was wrong with it.
func (a *ask) again(message string) Reply {
	path, query := cutQuery(a.back())
	b := &ask{World: a.World, path: path, in: query, alert: message}
	b.frame = a.frame
	b.frame.Path, b.frame.Flash, b.frame.Undo = path, "", nil
	reply := b.answer(false)
	if reply.Redirect != "" || reply.File != nil || reply.Body == nil {
		return a.trouble("That could not be taken", message, "Go back and try again.")
	}
	if reply.Status == statusOK {
		reply.Status = statusWrong
	}
	return reply
}
