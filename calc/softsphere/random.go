package softsphere

import "math"

// random is SplitMix64 (Steele, Lea and Flood 2014): one word of state, the same
// numbers on every machine.
type random struct{ state uint64 }

func (r *random) next() uint64 {
	r.state += 0x9e3779b97f4a7c15
	z := r.state
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// unit is uniform in [0, 1).
func (r *random) unit() float64 { return float64(r.next()>>11) * (1.0 / (1 << 53)) }

// direction is uniform on the unit sphere, by rejection so that no sine is needed.
func (r *random) direction() (x, y, z float64) {
	for {
		x, y, z = float64(2*r.unit())-1, float64(2*r.unit())-1, float64(2*r.unit())-1
		square := float64(x*x) + float64(y*y) + float64(z*z)
		if square > 0.01 && square < 1 {
			length := math.Sqrt(square)
			return x / length, y / length, z / length
		}
	}
}
