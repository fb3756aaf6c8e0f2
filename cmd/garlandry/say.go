package main

import (
	"bytes"
	"fmt"
	"io"
	"reflect"
	"strings"
	"unicode"
	"unicode/utf8"
)

// plain makes a text safe to print on a terminal: it removes control characters and marks of writing direction, and
// turns line breaks and tabs into spaces.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t', r == '\r', r == '\u2028', r == '\u2029':
			return ' '
		case steers(r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
}

// steers reports whether a terminal may obey the character instead of showing it: C0 and C1 controls, line feed and tab
// among them, and marks of writing direction.
func steers(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
}

// say prints like [fmt.Fprintf] but makes every text among the arguments [plain]: only the format breaks lines.
func say(out io.Writer, format string, args ...any) {
	for i, arg := range args {
		switch value := arg.(type) {
		case error:
			args[i] = plain(strings.ReplaceAll(value.Error(), "\n", "; "))
		case fmt.Stringer:
			args[i] = plain(value.String())
		default:
			if reflect.ValueOf(arg).Kind() == reflect.String {
				args[i] = plain(reflect.ValueOf(arg).String())
			}
		}
	}
	fmt.Fprintf(out, format, args...)
}

// safeWriter is an output that drops characters that steer a terminal, except line feed and tab. It backs up [say], in
// case a text gets out by another way.
type safeWriter struct {
	out  io.Writer
	rest []byte // the first bytes of a character that the next write ends
}

// Write implements [io.Writer].
func (w *safeWriter) Write(text []byte) (int, error) {
	all := append(w.rest, text...)
	w.rest = nil
	var safe bytes.Buffer
	for len(all) > 0 {
		if !utf8.FullRune(all) {
			w.rest = bytes.Clone(all)
			break
		}
		r, size := utf8.DecodeRune(all)
		all = all[size:]
		if r == '\n' || r == '\t' || !steers(r) {
			safe.WriteRune(r)
		}
	}
	if _, err := w.out.Write(safe.Bytes()); err != nil {
		return 0, err
	}
	return len(text), nil
}

// safely wraps an output in a safeWriter.
func safely(out io.Writer) io.Writer { return &safeWriter{out: out} }

// underneath returns the wrapped output, for drawings with escapes of our own.
func underneath(out io.Writer) io.Writer {
	if w, is := out.(*safeWriter); is {
		return w.out
	}
	return out
}

func pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// escapeJSON escapes the characters that steer a terminal and that JSON does not escape.
func escapeJSON(text []byte) []byte {
	var b bytes.Buffer
	for _, r := range string(text) {
		if r != '\n' && steers(r) {
			fmt.Fprintf(&b, "\\u%04x", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.Bytes()
}
