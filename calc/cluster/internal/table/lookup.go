package table

import "garlandry/calc/nest"

// Book is a table: the texts of one size, of two sizes and of three.
type Book struct{ Alike, Mixed, Three string }

// Kept is the table that was made.
func Kept() Book { return Book{alike, mixed, three} }

// Curve is the curve of a cluster, one to MostDuplets duplets, its groups sorted by
// size, smallest first; and the mean diameter that it counts in, and what to add
// to ball and girth, in diameters of the groups. Where the table has no such
// cluster, it is one that stands in.
func (b Book) Curve(groups []Group) (curve nest.Curve, mean, add float64) {
	if len(groups) == 1 {
		return b.alike(groups[0].Duplets), groups[0].Diameter, 0
	}
	curve, mean, add = b.standIn(groups)
	if len(groups) > 2 {
		b.correct(&curve, groups)
	}
	return curve, mean, add
}

// standIn is Curve before three sizes or more are corrected.
func (b Book) standIn(groups []Group) (curve nest.Curve, mean, add float64) {
	s := standIn(groups)
	widest, own := Ratios()[ratioCount-1], s.mean()
	// Beyond the table's ratios the small balloons matter little: the large ones
	// keep their size.
	s.small = max(s.small, s.large/widest)
	// Ball and girth are twice the mean of diameter plus neck: a stand-in has the
	// necks right and, beyond the ratios, the diameters not.
	return b.between(s), s.mean(), 2 * (own - s.mean())
}

// Factors are those that give the cluster's stand-in its own curve.
func (b Book) Factors(groups []Group, own nest.Curve) Factors {
	curve, mean, add := b.standIn(groups)
	ownMean := mean + add/2
	var factors Factors
	for i := range nest.Points {
		factors.Pitch[i] = own.Pitch[i] * ownMean / (curve.Pitch[i] * mean)
		factors.Girth[i] = (own.Girth[i]*ownMean - add) / (curve.Girth[i] * mean)
	}
	return factors
}

// alike is the curve of a cluster of duplets of one size.
func (b Book) alike(duplets int) nest.Curve {
	return Decode(b.Alike[(duplets-1)*Width : duplets*Width])
}

// between is the curve of two sizes whose counts need not be whole, straight
// between those that are.
func (b Book) between(s twoSizes) nest.Curve {
	large := min(max(int(s.largeDuplets), 1), s.duplets-1)
	curve := b.mixed(s.duplets-large, large, s.large/s.small)
	if part := s.largeDuplets - float64(large); part > 0 && large+1 < s.duplets {
		curve = curve.Mix(b.mixed(s.duplets-large-1, large+1, s.large/s.small), part)
	}
	return curve
}

// mixed is the curve of two sizes, straight between the ratios.
func (b Book) mixed(small, large int, ratio float64) nest.Curve {
	curve := b.alike(small + large)
	ball, before, row := curve.Ball, 1.0, mixedRow(small, large)
	for i, next := range Ratios() {
		following := unpack(b.Mixed, row+i, ball)
		if ratio <= next {
			return curve.Mix(following, max(0, (ratio-before)/(next-before)))
		}
		before, curve = next, following
	}
	return curve
}
