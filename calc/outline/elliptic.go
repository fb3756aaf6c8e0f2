package outline

import "math"

// ellipsePerimeter returns the perimeter of an ellipse with semi-axes a and b, both above 0, in either order.
func ellipsePerimeter(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	ratio := b / a
	mean, deficit := meanAndDeficit(1, ratio, float64((1-ratio)*(1+ratio)))
	return a * 2 * math.Pi / mean * (1 - deficit)
}

// meanAndDeficit returns the arithmetic-geometric mean of a and b, and the sum of 2^(n-1) c_n² over its steps. The
// caller passes c_0² = m, because a² - b² would lose digits.
func meanAndDeficit(a, b, m float64) (mean, deficit float64) {
	deficit = m / 2
	weight := 1.0
	// The gap squares itself in each round, so 64 rounds are never reached. Once its square is below rounding, more
	// rounds would add noise.
	for range 64 {
		gap := (a - b) / 2
		a, b = (a+b)/2, math.Sqrt(a*b)
		if math.Abs(gap) <= 1e-9*a {
			break
		}
		deficit += float64(weight * gap * gap)
		weight *= 2
	}
	return a, deficit
}
