// Package template stands in for html/template when the on-device core is built. The page library needs one function of
// that package, which would bring the template engine, regular expressions and their tables to the phone. The server uses
// the real one; a test holds that both escape alike.
package template

// HTMLEscapeString returns text with the characters that mean something in HTML written as entities, as html/template
// does: < > & " ' and the zero byte.
func HTMLEscapeString(text string) string {
	first := 0
	for first < len(text) && entity(text[first]) == "" {
		first++
	}
	if first == len(text) {
		return text
	}
	out := append(make([]byte, 0, len(text)+16), text[:first]...)
	for i := first; i < len(text); i++ {
		if e := entity(text[i]); e != "" {
			out = append(out, e...)
		} else {
			out = append(out, text[i])
		}
	}
	return string(out)
}

func entity(c byte) string {
	switch c {
	case '<':
		return "&lt;"
	case '>':
		return "&gt;"
	case '&':
		return "&amp;"
	case '"':
		return "&#34;"
	case '\'':
		return "&#39;"
	case 0:
		return "\uFFFD"
	}
	return ""
}
