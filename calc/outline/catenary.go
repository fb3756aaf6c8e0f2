package outline

import "math"

// CatenaryMM returns the length of a uniform rope, chain or string between two points of equal height spanMM apart that
// sags sagMM at the middle. Upside down it is an arch of the same measures. A sag of 0 is a straight line.
//
// With u = span / 2a (a is the catenary's parameter) the sag fixes u by
// (cosh u - 1) / u = 2 sag / span, and the length is span sinh(u) / u.
func CatenaryMM(spanMM, sagMM float64) (float64, error) {
	if err := checkSpanAndRise("span", spanMM, "sag", sagMM); err != nil {
		return 0, err
	}
	u := catenaryFromSag(spanMM, sagMM)
	return spanMM * sinhOver(u), nil
}

// catenaryFromSag solves (cosh u - 1)/u = 2 sag/span for u >= 0.
func catenaryFromSag(spanMM, sagMM float64) float64 {
	wanted := 2 * sagMM / spanMM
	if wanted == 0 {
		return 0
	}
	return solveRising(wanted, func(u float64) float64 {
		half := math.Sinh(u / 2)
		return 2 * half * (half / u)
	})
}

// solveRising finds u > 0 with f(u) = wanted > 0 for an f that rises without bound from f(0+) = 0. It doubles u to find
// a bracket and halves the bracket down to two neighbouring floats. This is slower than Newton's method but never
// leaves the bracket.
func solveRising(wanted float64, f func(float64) float64) float64 {
	low, high := 0.0, 1.0
	for f(high) < wanted {
		low, high = high, high*2
	}
	for f(high/2) >= wanted && high > 1e-300 {
		high /= 2
	}
	low = math.Max(low, high/2)
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return high
		}
		if f(middle) < wanted {
			low = middle
		} else {
			high = middle
		}
	}
}

// sinhOver returns sinh(u)/u, and 1 at 0.
func sinhOver(u float64) float64 {
	if u == 0 {
		return 1
	}
	return math.Sinh(u) / u
}
