package outline

import (
	"fmt"
	"math"
)

// Limits of a measure, in millimetres: 1 mm to 10 km. The formulas hold beyond them, but no décor is that small or
// large.
const (
	SmallestMM = 1.0
	LargestMM  = 1e7
)

// Reasons why a line cannot be measured, for errors.Is. The error's text names the measure, the value and the allowed
// range.
var (
	ErrNotANumber   error = reason("not a number")
	ErrTooSmall     error = reason("too small")
	ErrTooLarge     error = reason("too large")
	ErrPart         error = reason("part outside 0 to 1")
	ErrTooFewPoints error = reason("too few points")
	ErrTooMany      error = reason("too many points")
	ErrUnknownShape error = reason("unknown shape")
)

// reason is a constant error.
type reason string

func (r reason) Error() string { return string(r) }

// checkBetween returns nil if least <= value <= LargestMM, or an error that calls the value name.
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

// checkSpanAndRise checks a span, which must be above 0, and a rise, which may be 0.
func checkSpanAndRise(spanName string, span float64, riseName string, rise float64) error {
	if err := checkBetween(spanName, span, SmallestMM); err != nil {
		return err
	}
	return checkBetween(riseName, rise, 0)
}
