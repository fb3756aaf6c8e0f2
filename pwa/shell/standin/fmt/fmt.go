// Package fmt stands in for the standard package of that name when the on-device core is built: the real one brings files,
// the operating system and the printing of every kind of value to the phone. This one has what the core calls, Sprintf,
// Sprint, Fprintf and Errorf, and prints what the core prints, exactly as the real one does; the server uses the real one.
//
// Verbs: %v %w %T for any supported value, %s %q %x %X for text and bytes, %d %x %X %c %U for whole numbers, %e %f %g %x
// for fractional numbers, %t for truth, with width, precision and the flags - + # 0 and space. Values: the basic kinds but
// complex numbers, types named after them, errors, Stringers, nil, and slices and arrays of those.
//
// It refuses to know: structs, maps, functions, channels and pointers without methods, which print as their type alone;
// # with %v, %q or a fractional number, which is passed over; arguments named by number or used as a width; and what a type
// says of its own formatting. A test reads every format string that the core is built from and fails on one of those.
// What it must know of types it reads as the compiler laid them out, in layout.go, since reflect weighs more than it does.
package fmt

import "io"

// Stringer is a value that can say itself in words.
type Stringer interface {
	String() string
}

// Sprintf returns the format with its verbs filled in.
func Sprintf(format string, args ...any) string {
	var p printer
	p.format(format, args)
	return string(p.out)
}

// Fprintf writes the format with its verbs filled in, and returns the bytes written and the writer's error.
func Fprintf(w io.Writer, format string, args ...any) (int, error) {
	var p printer
	p.format(format, args)
	return w.Write(p.out)
}

// Sprint returns its arguments in words, with a space between two neither of which is a string.
func Sprint(args ...any) string {
	var p printer
	text := true
	for i, arg := range args {
		was := text
		text = isString(arg)
		if i > 0 && !text && !was {
			p.add(" ")
		}
		p.directive = directive{width: unset, precision: unset}
		p.value(arg, 'v')
	}
	return string(p.out)
}
