package softsphere

import (
	"math"

	"garlandry/calc/rng"
)

// unit returns a number uniform in [0, 1).
func unit(r *rng.Source) float64 { return float64(r.Next()>>11) * (1.0 / (1 << 53)) }

// direction returns a direction uniform on the unit sphere. It rejects points outside the sphere: that needs no sine.
func direction(r *rng.Source) (x, y, z float64) {
	for {
		x, y, z = float64(2*unit(r))-1, float64(2*unit(r))-1, float64(2*unit(r))-1
		square := float64(x*x) + float64(y*y) + float64(z*z)
		if square > 0.01 && square < 1 {
			length := math.Sqrt(square)
			return x / length, y / length, z / length
		}
	}
}
