package fmt

import "errors"

// Errorf returns an error that says the format with its verbs filled in. An error printed with %w is wrapped: the result
// has Unwrap() error for one %w, Unwrap() []error for several, and no Unwrap for none.
func Errorf(format string, args ...any) error {
	p := printer{wraps: true}
	p.format(format, args)
	text := string(p.out)
	switch {
	case p.wrapVerbs == 0:
		return errors.New(text)
	case p.wrapVerbs > 1:
		return &wrapSeveral{text, p.wrapped}
	case len(p.wrapped) == 0:
		return &wrapOne{text, nil}
	}
	return &wrapOne{text, p.wrapped[0]}
}

type wrapOne struct {
	text  string
	cause error
}

func (e *wrapOne) Error() string { return e.text }

// Unwrap returns the error that was printed with %w, nil when that argument was no error.
func (e *wrapOne) Unwrap() error { return e.cause }

type wrapSeveral struct {
	text   string
	causes []error
}

func (e *wrapSeveral) Error() string { return e.text }

// Unwrap returns the errors that were printed with %w, in their order.
func (e *wrapSeveral) Unwrap() []error { return e.causes }
