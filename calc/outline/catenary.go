package outline

import (
	"fmt"
	"math"
)

// CatenaryMM is the length of a rope, chain or string of even weight hung
// between two points of equal height spanMM apart, sagging sagMM at the middle.
// Turned over, it is the arch of the same measures. A sag of 0 is the straight
// line.
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

// CatenarySagMM is how far a string of lengthMM sags at the middle when it
// hangs between two points of equal height spanMM apart. The string must be at
// least as long as the span, otherwise ErrTooShort.
func CatenarySagMM(spanMM, lengthMM float64) (float64, error) {
	u, err := catenaryFromLength(spanMM, 0, lengthMM)
	if err != nil {
		return 0, err
	}
	if u == 0 {
		return 0, nil
	}
	half := math.Sinh(u / 2)
	return spanMM * float64(half*half) / u, nil
}

// CatenaryParameterMM is the parameter a of the catenary y = a cosh(x/a) of
// lengthMM between two points spanMM apart, one of them dropMM higher than the
// other. A string as long as the straight way has no parameter: ErrTooShort.
func CatenaryParameterMM(spanMM, dropMM, lengthMM float64) (float64, error) {
	u, err := catenaryFromLength(spanMM, dropMM, lengthMM)
	if err != nil {
		return 0, err
	}
	if u == 0 {
		return 0, fmt.Errorf("length of %g mm: %w, it hangs straight", lengthMM, ErrTooShort)
	}
	return spanMM / (2 * u), nil
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

// catenaryFromLength solves sinh(u)/u = sqrt(length² - drop²)/span for u >= 0.
func catenaryFromLength(spanMM, dropMM, lengthMM float64) (float64, error) {
	if err := checkSpanAndRise("span", spanMM, "drop", dropMM); err != nil {
		return 0, err
	}
	if err := checkBetween("length", lengthMM, SmallestMM); err != nil {
		return 0, err
	}
	if straight := math.Hypot(spanMM, dropMM); lengthMM < straight {
		return 0, fmt.Errorf("length of %g mm: %w of %g mm", lengthMM, ErrTooShort, straight)
	}
	level := math.Sqrt(float64((lengthMM - dropMM) * (lengthMM + dropMM)))
	// sinh(u)/u - 1 = (level - span)/span keeps its digits for taut strings.
	slack := (level - spanMM) / spanMM
	if slack <= 0 {
		return 0, nil
	}
	return solveRising(slack, sinhOverLessOne), nil
}

// solveRising finds u > 0 with f(u) = wanted > 0 for an f that rises from f(0+) = 0
// without bound, by doubling to a bracket and then halving it in until two
// neighbouring floats are left. Slower than Newton but never leaves the bracket.
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

// sinhOver is sinh(u)/u, 1 at 0.
func sinhOver(u float64) float64 {
	if u == 0 {
		return 1
	}
	return math.Sinh(u) / u
}

// sinhOverLessOne is sinh(u)/u - 1 without losing digits near 0.
func sinhOverLessOne(u float64) float64 {
	if u > 0.5 {
		return math.Sinh(u)/u - 1
	}
	square := u * u
	term, sum := square/6, 0.0
	for n := 4.0; term > 1e-18*sum; n += 2 {
		sum += term
		term *= square / (n * (n + 1))
	}
	return sum
}
