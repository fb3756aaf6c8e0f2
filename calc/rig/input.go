package rig

import (
	"errors"
	"fmt"
)

// ErrInput is wrapped by every error of this package: an argument is missing or
// outside what the formulas hold for. The message names it and its range.
var ErrInput = errors.New("input out of range")

// Marks say how far a figure can be trusted.
const (
	MarkPublished      = "published"
	MarkCommonPractice = "common practice"
	MarkFromMemory     = "from memory"
	MarkMeasured       = "measured by you"
)

// gravity is the standard acceleration of free fall in m/s².
const gravity = 9.80665

// WeightN is the weight in newton of a mass in grams.
func WeightN(massG float64) float64 { return massG / 1000 * gravity }

// within reports an error unless lowest <= value <= most; NaN is an error.
func within(name string, value, lowest, most float64, unit string) error {
	if value >= lowest && value <= most {
		return nil
	}
	return fmt.Errorf("%w: %s is %.6g %s, accepted are %.6g to %.6g %s", ErrInput, name, value, unit, lowest, most, unit)
}

// firstError returns the first that is not nil.
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
