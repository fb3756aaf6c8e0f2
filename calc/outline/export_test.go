package outline

import (
	"fmt"
	"math"
)

// CompleteElliptic returns the complete elliptic integrals of the first (K) and second kind (E) of the parameter m =
// k², 0 <= m <= 1, by the arithmetic-geometric mean (Abramowitz & Stegun 17.6). K is +Inf at m = 1.
func CompleteElliptic(m float64) (k, e float64, err error) {
	if !(m >= 0 && m <= 1) {
		return 0, 0, fmt.Errorf("elliptic parameter %g: %w, 0 to 1", m, ErrNotANumber)
	}
	if m == 1 {
		return math.Inf(1), 1, nil
	}
	mean, deficit := meanAndDeficit(1, math.Sqrt(1-m), m)
	k = math.Pi / (2 * mean)
	return k, k * (1 - deficit), nil
}
