package figures

import "math"

// RoundUp rounds up to a whole number. It gives 0 for anything not above zero, and at most a thousand million.
func RoundUp(x float64) int {
	if !(x > roundingSlack) {
		return 0
	}
	return int(math.Ceil(min(x, 1e9) - roundingSlack))
}

// roundingSlack is the excess that rounding up ignores, so that phone and server agree on exact multiples.
const roundingSlack = 1e-6

// RoundUpTo rounds up to whole steps, for figures that are only about right.
func RoundUpTo(x, step float64) float64 { return math.Ceil(x/step-roundingSlack) * step }

// RoundDownTo rounds down to whole steps, for hours and limits that must not be promised too large.
func RoundDownTo(x, step float64) float64 { return math.Floor(x/step+roundingSlack) * step }
