package json

import "bytes"

// Compact adds src to dst without the white space between its parts. The error is a [*SyntaxError]; nothing is added then.
func Compact(dst *bytes.Buffer, src []byte) error {
	if err := check(src); err != nil {
		return err
	}
	dst.Write(compact(nil, src, false))
	return nil
}

// compact adds a valid value without white space, and with what means something in HTML escaped or not.
func compact(out, src []byte, html bool) []byte {
	inside := false // of a text
	done := 0
	for i := 0; i < len(src); i++ {
		c := rune(src[i])
		skip := 1
		switch {
		case c == '"':
			inside = !inside
			continue
		case c == '\\':
			i++
			continue
		case c <= ' ' && !inside:
			out = append(out, src[done:i]...)
			done = i + 1
			continue
		case html && c == 0xe2 && i+2 < len(src) && src[i+1] == 0x80 && src[i+2]&^1 == 0xa8:
			c = 0x2000 | rune(src[i+2])&^0x80
			skip = 3
		case !html || c != '<' && c != '>' && c != '&':
			continue
		}
		out = escape(append(out, src[done:i]...), c)
		done = i + skip
	}
	return append(out, src[done:]...)
}

// MarshalIndent gives what [Marshal] gives, with each member on its own line, which begins with the prefix and one indent
// for each object or list around it.
func MarshalIndent(value any, prefix, indent string) ([]byte, error) {
	src, err := Marshal(value)
	if err != nil {
		return nil, err
	}
	var out []byte
	depth := 0
	inside, escaped := false, false // of a text
	for i, c := range src {
		if c == '"' && !escaped {
			inside = !inside
		}
		escaped = c == '\\' && !escaped
		if inside {
			out = append(out, c)
			continue
		}
		// Both opening brackets are one bit apart in ASCII, both closing ones too, and two further on.
		if c|0x20 == '}' {
			if depth--; src[i-1] != c-2 {
				out = line(out, prefix, indent, depth)
			}
		}
		out = append(out, c)
		switch {
		case c == ':':
			out = append(out, ' ')
		case c == ',':
			out = line(out, prefix, indent, depth)
		case c|0x20 == '{':
			if depth++; src[i+1] != c+2 {
				out = line(out, prefix, indent, depth)
			}
		}
	}
	return out, nil
}

func line(out []byte, prefix, indent string, depth int) []byte {
	out = append(append(out, '\n'), prefix...)
	for range depth {
		out = append(out, indent...)
	}
	return out
}
