package form

import (
	"errors"
	"slices"
	"strings"
)

// ErrQuery says that an address holds a broken escape, or a semicolon where only & may stand.
var ErrQuery = errors.New("this address cannot be read")

// ParseQuery reads the query of an address, as browsers write forms into it (application/x-www-form-urlencoded). It
// reads as net/url does, which would bring network addresses to the phone.
func ParseQuery(query string) (Values, error) {
	values := Values{}
	for query != "" {
		var pair string
		pair, query, _ = strings.Cut(query, "&")
		if pair == "" {
			continue
		}
		if strings.Contains(pair, ";") {
			return nil, ErrQuery
		}
		rawKey, rawValue, _ := strings.Cut(pair, "=")
		key, ok := unescape(rawKey, true)
		value, also := unescape(rawValue, true)
		if !ok || !also {
			return nil, ErrQuery
		}
		values[key] = append(values[key], value)
	}
	return values, nil
}

// ParsePath reads the escaped path of an address.
func ParsePath(path string) (string, error) {
	text, ok := unescape(path, false)
	if !ok {
		return "", ErrQuery
	}
	return text, nil
}

// Query writes the values as the query of an address, in the order of their names.
func (v Values) Query() string {
	names := make([]string, 0, len(v))
	for name := range v {
		names = append(names, name)
	}
	slices.Sort(names)
	var out []byte
	for _, name := range names {
		for _, value := range v[name] {
			if len(out) > 0 {
				out = append(out, '&')
			}
			out = escape(append(escape(out, name), '='), value)
		}
	}
	return string(out)
}

const hexDigits = "0123456789ABCDEF"

func escape(out []byte, text string) []byte {
	for _, c := range []byte(text) {
		switch {
		case c == ' ':
			out = append(out, '+')
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '-', c == '_', c == '.', c == '~':
			out = append(out, c)
		default:
			out = append(out, '%', hexDigits[c>>4], hexDigits[c&15])
		}
	}
	return out
}

func unescape(text string, plusIsSpace bool) (string, bool) {
	if !strings.ContainsAny(text, "%+") {
		return text, true
	}
	out := make([]byte, 0, len(text))
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '+' && plusIsSpace:
			out = append(out, ' ')
		case c == '%':
			if i+2 >= len(text) {
				return "", false
			}
			high, low := hexValue(text[i+1]), hexValue(text[i+2])
			if high < 0 || low < 0 {
				return "", false
			}
			out = append(out, byte(high<<4|low))
			i += 2
		default:
			out = append(out, c)
		}
	}
	return string(out), true
}

func hexValue(c byte) int {
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
