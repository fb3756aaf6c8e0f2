package table

import (
	"math"

	"garlandry/calc/nest"
)

// twoSizes is a cluster of two sizes, the duplets of each perhaps not whole.
type twoSizes struct {
	small, large float64
	duplets      int
	largeDuplets float64
}

func (s *twoSizes) mean() float64 {
	return s.small + float64((s.large-s.small)*s.largeDuplets)/float64(s.duplets)
}

// moments are the mean of the diameters, and the means of the second to fourth
// powers of what they are off it.
type moments struct{ mean, second, third, fourth float64 }

func momentsOf(groups []Group) (m moments, duplets int) {
	for i := range groups {
		duplets += groups[i].Duplets
		m.mean += float64(float64(groups[i].Duplets) * groups[i].Diameter)
	}
	m.mean /= float64(duplets)
	for i := range groups {
		share, off := float64(groups[i].Duplets)/float64(duplets), groups[i].Diameter-m.mean
		square := float64(off * off)
		m.second += float64(share * square)
		m.third += float64(share * square * off)
		m.fourth += float64(share * square * square)
	}
	return m, duplets
}

// standIn is the two sizes that have the count, the mean, the spread and the
// volume of more sizes: the nodes and weights of Gauss quadrature with two points
// over the balloons' diameters. How densely balls of many sizes pack at random
// depends on the spread and the skew of their sizes, and hardly on the moment after
// these (Desmond and Weeks, Physical Review E 90, 2014, 022204). Each of the two gets at least as many
// duplets as the smallest and the largest size have, and two sizes stand in for
// themselves.
func standIn(groups []Group) twoSizes {
	m, duplets := momentsOf(groups)
	if len(groups) == 2 {
		return twoSizes{groups[0].Diameter, groups[1].Diameter, duplets, float64(groups[1].Duplets)}
	}
	half := m.third / m.second / 2
	root := math.Sqrt(float64(half*half) + m.second)
	return twoSizes{m.mean + half - root, m.mean + half + root, duplets, float64(duplets) * (root - half) / (2 * root)}
}

// correct multiplies the pitches and girths of a stand-in by the table's factors,
// straight between its ratios; where it has none, the pitches by about what they are
// off for so uneven sizes.
func (b Book) correct(c *nest.Curve, groups []Group) {
	row, known := 0, false
	if len(groups) == 3 {
		row, known = threeRow(groups)
	}
	var factors Factors
	if known {
		factors = b.factorsAt(row, groups[1].Diameter/groups[0].Diameter, groups[2].Diameter/groups[1].Diameter)
	} else {
		offs, uneven := unevenOff(), unevenness(groups)
		for i := range nest.Points {
			factors.Pitch[i] = max(1+float64(offs[i]*uneven), 0.5)
			factors.Girth[i] = 1
		}
	}
	for i := range nest.Points {
		c.Pitch[i] *= factors.Pitch[i]
		c.Girth[i] *= factors.Girth[i]
		if i > 0 {
			c.Pitch[i] = min(c.Pitch[i], c.Pitch[i-1])
		}
	}
}

// factorsAt are the factors of three sizes, straight between the ratios of the rows
// that begin with this one.
func (b Book) factorsAt(row int, middleRatio, largeRatio float64) Factors {
	lowers, uppers := Lower(), Upper()
	lower, low := cell(lowers[:], middleRatio)
	upper, up := cell(uppers[:], largeRatio)
	var factors Factors
	for i := range nest.Points {
		factors.Pitch[i], factors.Girth[i] = 1, 1
	}
	for x, along := range [2]float64{1 - low, low} {
		for y, across := range [2]float64{1 - up, up} {
			// Where two sizes are the same, nothing is off.
			if lower+x > 0 && upper+y > 0 {
				factors.add(b.Three, row+(lower+x-1)*upperCount+upper+y-1, along*across)
			}
		}
	}
	straighten(&factors.Pitch, factorPushes[:])
	straighten(&factors.Girth, girthFactorPushes[:])
	return factors
}

// cell is the number of the first of rising ratios that is not below this one, the
// last if none is, and how far this one is on the way to it from the one before,
// which is 1 before the first.
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

// unevenness is by how much the fourth moment of the diameters is above that of
// their stand-in, as a share of the mean fourth power: 0 for two sizes.
func unevenness(groups []Group) float64 {
	m, _ := momentsOf(groups)
	above := m.fourth - float64(m.second*m.second) - float64(m.third*m.third)/m.second
	square := float64(m.mean * m.mean)
	all := float64(square*square) + float64(6*square*m.second) + float64(4*m.mean*m.third) + m.fourth
	return max(above, 0) / all
}

// unevenOff is how much the pitch is off at each push for each whole of unevenness,
// fitted to relaxed clusters of three to five sizes drawn at random.
func unevenOff() [nest.Points]float64 {
	return [nest.Points]float64{1.8, -0.4, -1.9, -3.2, -4.5, -5.6, -7, -7.1, -8.3, -5.7}
}
