package json

import (
	"strings"
	"unicode/utf8"
)

const hexDigits = "0123456789abcdef"

// quote adds a text with its quotation marks. Bytes that are not UTF-8 become the replacement character; what means
// something in HTML is escaped.
func quote(out []byte, text string) []byte {
	out = append(out, '"')
	done := 0
	for i := 0; i < len(text); {
		c := rune(text[i])
		size := 1
		if c >= utf8.RuneSelf {
			c, size = utf8.DecodeRuneInString(text[i:])
			if size > 1 && c != '\u2028' && c != '\u2029' {
				i += size
				continue
			}
		} else if c >= ' ' && c != '"' && c != '\\' && c != '<' && c != '>' && c != '&' {
			i++
			continue
		}
		out = escape(append(out, text[done:i]...), c)
		i += size
		done = i
	}
	return append(append(out, text[done:]...), '"')
}

func escape(out []byte, c rune) []byte {
	if c == '"' || c == '\\' {
		return append(out, '\\', byte(c))
	}
	if i := strings.IndexByte("\b\f\n\r\t", byte(c)); i >= 0 && c < ' ' {
		return append(out, '\\', "bfnrt"[i])
	}
	return append(out, '\\', 'u', hexDigits[c>>12&15], hexDigits[c>>8&15], hexDigits[c>>4&15], hexDigits[c&15])
}

// unquote gives what a valid text stands for, without the quotation marks. It may be a part of the given bytes.
func unquote(raw []byte) []byte {
	raw = raw[1 : len(raw)-1]
	i := 0
	for i < len(raw) && raw[i] != '\\' && raw[i] < utf8.RuneSelf {
		i++
	}
	if i == len(raw) {
		return raw
	}
	out := append(make([]byte, 0, len(raw)+utf8.UTFMax), raw[:i]...)
	for i < len(raw) {
		c, size := rune(raw[i]), 1
		switch {
		case c == '\\':
			c, size = unescape(raw[i:])
		case c >= utf8.RuneSelf:
			c, size = utf8.DecodeRune(raw[i:])
		}
		out = utf8.AppendRune(out, c)
		i += size
	}
	return out
}

// unescape gives the character that an escape at the beginning of raw stands for, and the escape's length. Half of a
// surrogate pair alone stands for the replacement character.
func unescape(raw []byte) (rune, int) {
	c := raw[1]
	if c != 'u' {
		if i := strings.IndexByte("bfnrt", c); i >= 0 {
			c = "\b\f\n\r\t"[i]
		}
		return rune(c), 2
	}
	first := codeUnit(raw)
	if first < 0xd800 || first > 0xdfff {
		return first, 6
	}
	if second := codeUnit(raw[6:]); first < 0xdc00 && second >= 0xdc00 && second <= 0xdfff {
		return (first-0xd800)<<10 + (second - 0xdc00) + 0x10000, 12
	}
	return utf8.RuneError, 6
}

// codeUnit reads an escape of four hexadecimal digits at the beginning of raw, -1 if there is none.
func codeUnit(raw []byte) rune {
	if len(raw) < 6 || raw[0] != '\\' || raw[1] != 'u' {
		return -1
	}
	var unit rune
	for _, c := range raw[2:6] {
		unit = unit<<4 | hexDigit(c)
	}
	return unit
}

// sameButCase reports whether a key means the field: the same letters, small or capital. Two letters outside ASCII are
// other forms of s and k.
func sameButCase(key []byte, name string) bool {
	i := 0
	for j := 0; j < len(name); j++ {
		if i >= len(key) {
			return false
		}
		c, size := rune(key[i]), 1
		if c >= utf8.RuneSelf && name[j] < utf8.RuneSelf {
			c, size = utf8.DecodeRune(key[i:])
			switch c {
			case '\u017f':
				c = 's'
			case '\u212a':
				c = 'k'
			}
		}
		if small(c) != small(rune(name[j])) {
			return false
		}
		i += size
	}
	return i == len(key)
}

func small(c rune) rune {
	if c >= 'A' && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c
}
