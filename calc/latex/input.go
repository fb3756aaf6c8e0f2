package latex

import (
	"errors"
	"fmt"
)

// ErrInput is wrapped by every error of this package: an argument is outside the range of the formulas. The message
// names it and its range.
var ErrInput = errors.New("input out of range")

// Ranges of the arguments, all inclusive.
const (
	// MinTempC and MaxTempC bound air temperatures: from deep frost to a closed car in the sun.
	MinTempC, MaxTempC = -40.0, 80.0
	// MinAltitudeM and MaxAltitudeM bound altitudes where people hold parties.
	MinAltitudeM, MaxAltitudeM = -500.0, 6000.0
	// MinFillPct and MaxFillPct bound the diameter as a share of full. Above
	// 110 a balloon is likely to burst (from memory).
	MinFillPct, MaxFillPct = 30.0, 110.0
)

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

// add appends a note.
func add(notes *[]string, note string) { *notes = append(*notes, note) }
