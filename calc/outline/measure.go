package outline

import (
	"fmt"
	"math"
)

// Limits of a measure, in millimetres: a line is between 1 mm and 10 km.
// Outside them the formulas still hold but no décor does.
const (
	SmallestMM = 1.0
	LargestMM  = 1e7
)

// Reasons why a line cannot be measured. Test for them with errors.Is; the
// error's text names the measure, what was given and what is allowed.
var (
	ErrNotANumber   error = reason("not a number")
	ErrTooSmall     error = reason("too small")
	ErrTooLarge     error = reason("too large")
	ErrPart         error = reason("part outside 0 to 1")
	ErrTooFewPoints error = reason("too few points")
	ErrTooMany      error = reason("too many points")
	ErrUnknownShape error = reason("unknown shape")
)

// reason is an error that is there without any work when the program starts.
type reason string

func (r reason) Error() string { return string(r) }

// checkBetween says why value is not usable as the measure called name, nil
// when least <= value <= LargestMM.
func checkBetween(name string, value, least float64) error {
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return fmt.Errorf("%s: %w", name, ErrNotANumber)
	case value < least:
		return fmt.Errorf("%s of %g mm: %w, at least %g mm", name, value, ErrTooSmall, least)
	case value > LargestMM:
		return fmt.Errorf("%s of %g mm: %w, at most %g mm", name, value, ErrTooLarge, LargestMM)
	}
	return nil
}

// checkSpanAndRise checks a line over a span: the span may not vanish, the rise may.
func checkSpanAndRise(spanName string, span float64, riseName string, rise float64) error {
	if err := checkBetween(spanName, span, SmallestMM); err != nil {
		return err
	}
	return checkBetween(riseName, rise, 0)
}
