package table

import (
	"math"

	"garlandry/calc/softsphere"
)

// moments holds a cluster's duplets, the mean of its diameters, and their second to fourth central moments.
type moments struct {
	duplets                     int
	mean, second, third, fourth float64
}

func momentsOf(groups []Group) (m moments) {
	for i := range groups {
		m.duplets += groups[i].Duplets
		m.mean += float64(float64(groups[i].Duplets) * groups[i].Diameter)
	}
	m.mean /= float64(m.duplets)
	for i := range groups {
		off := groups[i].Diameter - m.mean
		share := float64(groups[i].Duplets) / float64(m.duplets) * off * off
		m.second += share
		share *= off
		m.third += share
		m.fourth += float64(share * off)
	}
	return m
}

// twoSizes is two diameters and the number of duplets with the large one, which may be a fraction.
type twoSizes struct{ small, large, many float64 }

// substitute returns the two sizes with the same count, mean, spread and volume as more sizes: the nodes and weights of
// two-point Gauss quadrature over the balloons' diameters. The density of a random packing of balls of many sizes
// depends on the spread and the skew of their sizes, and hardly on the next moment (Desmond and Weeks, Physical Review
// E 90, 2014, 022204). Each of the two gets at least as many duplets as the smallest and the largest size have. Two
// sizes are their own substitute.
func substitute(groups []Group, m *moments) twoSizes {
	if len(groups) == 2 {
		return twoSizes{groups[0].Diameter, groups[1].Diameter, float64(groups[1].Duplets)}
	}
	half := m.third / m.second / 2
	root := math.Sqrt(float64(half*half) + m.second)
	return twoSizes{m.mean + half - root, m.mean + half + root, float64(m.duplets) * (root - half) / (2 * root)}
}

// unevenOff is the relative error of the pitch at each push per unit of unevenness, fitted to random relaxed clusters
// of three to five sizes.
var unevenOff = [softsphere.Points]float64{1.8, -0.4, -1.9, -3.2, -4.5, -5.6, -7, -7.1, -8.3, -5.7}

// unevenness returns how far the fourth moment of the diameters is above that of their substitute, as a share of the
// mean fourth power: 0 for two sizes.
func (m *moments) unevenness() float64 {
	above := m.fourth - float64(m.second*m.second) - float64(m.third*m.third)/m.second
	square := float64(m.mean * m.mean)
	return max(above, 0) / (float64(square*square) + float64(6*square*m.second) + float64(4*m.mean*m.third) + m.fourth)
}

// correct multiplies the pitches of a substitute by the table's factors and adds to its coverages, interpolated
// linearly between its ratios. Without such factors, it multiplies the pitches by the usual factor for sizes this
// uneven.
func (b *Book) correct(c *softsphere.Curve, groups []Group, m *moments) {
	var factors softsphere.Curve
	var corners [4]corner
	row := threeRow(groups)
	if row >= 0 {
		lower, low := cell(lowers[:], groups[1].Diameter/groups[0].Diameter)
		upper, up := cell(uppers[:], groups[2].Diameter/groups[1].Diameter)
		row += lower*upperCount + upper
		for i := range corners {
			at := &corners[i]
			at.row, at.share = row, low
			if i&1 == 0 {
				at.row, at.share = row-upperCount, 1-low
			}
			if i&2 == 0 {
				at.row--
				at.share *= 1 - up
			} else {
				at.share *= up
			}
			// If two sizes are the same, before the first ratio, there is no error.
			if lower+i&1 == 0 || upper+i>>1 == 0 {
				*at = corner{}
			}
		}
	}
	unpackFactors(&factors, b.Three, &corners)
	for i := range softsphere.Points {
		if row < 0 {
			factors.Pitch[i] = max(1+float64(unevenOff[i]*m.unevenness()), 0.5)
		}
		c.Pitch[i] *= factors.Pitch[i]
		c.Coverage[i] = min(max(c.Coverage[i]+factors.Coverage[i], 0), 1)
		if i > 0 {
			c.Pitch[i] = min(c.Pitch[i], c.Pitch[i-1])
		}
	}
}

// Factors returns the factors from the pitches of the cluster's substitute to those of its own curve, and what its own
// coverages are more.
func (b *Book) Factors(groups []Group, own *softsphere.Curve) *softsphere.Curve {
	m := momentsOf(groups)
	var substituted, factors softsphere.Curve
	mean := b.uncorrected(&substituted, groups, &m)
	for i := range softsphere.Points {
		factors.Pitch[i] = own.Pitch[i] * m.mean / (substituted.Pitch[i] * mean)
		factors.Coverage[i] = own.Coverage[i] - substituted.Coverage[i]
	}
	return &factors
}

// cell returns the index of the first of rising ratios that is not below this ratio, or the last, and the position of
// this ratio between the one before and that one, which is 1 before the first.
func cell(ratios []float64, ratio float64) (int, float64) {
	before := 1.0
	for i, next := range ratios {
		if ratio <= next {
			return i, (ratio - before) / (next - before)
		}
		before = next
	}
	return len(ratios) - 1, 1
}
