package calc

import (
	"math"
	"strings"

	"garlandry/calc/measure"
)

// InputError says which input cannot be used and what is allowed. Its text is one line: the input, what is wrong, its
// range, an example.
type InputError struct {
	Input   string // the input's key
	Message string // what is wrong and what is allowed
	// Example is a text that the input takes beside the other inputs. It is empty if there is none, as for an input
	// that must go.
	Example string
	Cause   error // the wrapped error; may be nil
}

// Error returns the text, which is one line.
func (e *InputError) Error() string {
	if e.Example == "" {
		return e.Input + ": " + e.Message
	}
	return e.Input + ": " + e.Message + "; for example " + e.Input + "=" + quoted(e.Example)
}

// Unwrap returns the underlying error, if any.
func (e *InputError) Unwrap() error { return e.Cause }

// problem returns an error about one input, with its range and example. Other examples in why are left out: they are
// of the kind, not of the input.
func (in *Input) problem(why string, cause error, s measure.System) *InputError {
	if unread, is := cause.(*measure.Error); is {
		why = unread.Taking(nil)
	}
	examples := strings.NewReplacer("; an example is 2x11@10", "", ", as in 2x11@10 + 1x18@16", "")
	wrong := examples.Replace(oneLine(why))
	if allowed := in.Range(s); allowed != "" {
		wrong += "; allowed: " + allowed
	}
	return &InputError{Input: in.Key, Message: wrong, Example: in.Example, Cause: cause}
}

// Range returns what the input may be, in the reader's units, or in metric ones where the key names the unit. It is
// empty when only the kind limits the input. Limits are rounded inwards, so each limit itself is accepted.
func (in *Input) Range(s measure.System) string {
	if in.BareMetric {
		s = measure.Metric
	}
	if in.Kind == KindChoice {
		return strings.Join(in.Choices, ", ")
	}
	if in.Kind == KindSize {
		return sizeNames()
	}
	for i := range allowances {
		if allowances[i].kind == in.Kind {
			return measure.Reword(allowances[i].text, s)
		}
	}
	if in.Max <= in.Min {
		return ""
	}
	return in.limit(in.Min, 1, s) + " to " + in.limit(in.Max, -1, s)
}

// limit writes one end of the range. It moves the end inwards, by a two-thousandth at a time, until the written text
// is accepted.
func (in *Input) limit(x, inwards float64, s measure.System) string {
	text := formatNumber(in.Kind, x, s)
	for range 1000 {
		if _, err := in.read(text, s); err == nil {
			break
		}
		x += inwards * math.Abs(x) * 0.0005
		text = formatNumber(in.Kind, x, s)
	}
	return text
}

// quoted returns text in quotes for a command line if it has spaces or marks.
func quoted(text string) string {
	if !strings.ContainsAny(text, " '\"()*;<>|&$") {
		return text
	}
	if strings.Contains(text, "\"") {
		return "'" + text + "'"
	}
	return "\"" + text + "\""
}

// oneLine returns text without line breaks, broken characters and control codes, which a terminal might execute.
func oneLine(text string) string {
	harmless := strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
	return strings.Join(strings.Fields(harmless), " ")
}
