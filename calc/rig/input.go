package rig

import (
	"errors"
	"fmt"
)

// ErrInput is wrapped by every error of this package: an argument is missing or outside the range of the formulas. The
// message names it and its range.
var ErrInput = errors.New("input out of range")

// Marks say how far a figure can be trusted.
const (
	MarkPublished      = "published"
	MarkCommonPractice = "common practice"
	MarkFromMemory     = "from memory"
	MarkMeasured       = "measured by you"
)

// Limits of a bar's loads: how many, and grams of each.
const (
	MostLoads    = 100
	LargestLoadG = 500_000
)

// gravity is the standard acceleration of free fall in m/s².
const gravity = 9.80665

// WeightN returns the weight in newton of a mass in grams.
func WeightN(massG float64) float64 { return massG / 1000 * gravity }

// limit is a value with its allowed range.
type limit struct {
	name                string
	value, lowest, most float64
	unit                string
}

// inside returns an error for the first limit whose value is out of range or NaN.
func inside(limits ...limit) error {
	for i := range limits {
		if l := &limits[i]; !(l.value >= l.lowest && l.value <= l.most) {
			return fmt.Errorf("%w: %s is %.6g %s, accepted are %.6g to %.6g %s", ErrInput, l.name, l.value, l.unit, l.lowest,
				l.most, l.unit)
		}
	}
	return nil
}

// within checks one limit.
func within(name string, value, lowest, most float64, unit string) error {
	return inside(limit{name, value, lowest, most, unit})
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func orDefault(value, otherwise float64) float64 {
	if value == 0 {
		return otherwise
	}
	return value
}

// add appends a note.
func add(notes *[]string, note string) { *notes = append(*notes, note) }
