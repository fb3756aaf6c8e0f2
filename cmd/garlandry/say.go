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

// plain makes a text of a job file, a name or a system safe to print: characters by which it could steer a terminal, or
// turn the writing around, go; line breaks and tabs become spaces.
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

// steers reports whether a terminal may obey the character instead of showing it: C0 and C1 controls, escape and delete
// among them, and the marks that turn the direction of writing. Line feed and tab steer too; callers that write them
// themselves let them pass.
func steers(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
}

// say prints as [fmt.Fprintf] does, every text among the arguments made [plain]: the format alone breaks lines.
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

// safeWriter is the command line's own output: no character that steers a terminal passes, but line feed and tab. It is
// what stands behind [say], should a text reach it by another way.
type safeWriter struct {
	out  io.Writer
	rest []byte // the beginning of a character whose end comes with the next write
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

// safely puts a safeWriter before an output.
func safely(out io.Writer) io.Writer { return &safeWriter{out: out} }

// underneath returns the output itself, for what this program draws with escapes of its own.
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

// escapeJSON writes characters that steer a terminal, and that JSON leaves as they are, as escapes.
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
