package figures

import "math"

// RoundUp rounds up to a whole number between 0 and a thousand million.
func RoundUp(x float64) int {
	if !(x > roundingSlack) {
		return 0
	}
	return int(math.Ceil(min(x, 1e9) - roundingSlack))
}

// roundingSlack is the excess that rounding up ignores, so that phone and server agree on exact multiples.
const roundingSlack = 1e-6

// RoundUpTo rounds up to whole steps, for approximate figures.
func RoundUpTo(x, step float64) float64 { return math.Ceil(x/step-roundingSlack) * step }

// RoundDownTo rounds down to whole steps, for hours and limits that must not be too large.
func RoundDownTo(x, step float64) float64 { return math.Floor(x/step+roundingSlack) * step }
