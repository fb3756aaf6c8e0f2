package table

import "garlandry/calc/softsphere"

// Book is a table: the texts of one size, of two sizes and of three.
type Book struct{ Alike, Mixed, Three string }

// Kept is the table in curves_gen.go.
var Kept = &Book{alike, mixed, three}

// Curve computes the curve of a cluster of 1 to MostDuplets duplets, whose groups are sorted by size, smallest first.
// It returns the mean diameter that scales the curve, in the unit of the groups. If the table does not have the
// cluster, the curve is that of its substitute.
func (b *Book) Curve(c *softsphere.Curve, groups []Group) (mean float64) {
	if len(groups) == 1 {
		b.alike(c, groups[0].Duplets)
		return groups[0].Diameter
	}
	m := momentsOf(groups)
	mean = b.uncorrected(c, groups, &m)
	if len(groups) > 2 {
		b.correct(c, groups, &m)
	}
	return mean
}

// uncorrected is Curve without the correction for three or more sizes.
func (b *Book) uncorrected(c *softsphere.Curve, groups []Group, m *moments) (mean float64) {
	s := substitute(groups, m)
	// Beyond the table's ratios the small balloons matter little, so the large ones keep their size.
	s.small = max(s.small, s.large/ratios[ratioCount-1])
	mean = s.small + float64((s.large-s.small)*s.many)/float64(m.duplets)
	// Interpolate linearly between whole counts.
	many := min(max(int(s.many), 1), m.duplets-1)
	b.mixed(c, m.duplets-many, many, s.large/s.small)
	if part := s.many - float64(many); part > 0 && many+1 < m.duplets {
		var more softsphere.Curve
		b.mixed(&more, m.duplets-many-1, many+1, s.large/s.small)
		c.Mix(&more, part)
	}
	return mean
}

// alike decodes the curve of a cluster of one size.
func (b *Book) alike(c *softsphere.Curve, duplets int) {
	decode(c, b.Alike[(duplets-1)*Width:])
}

// mixed decodes the curve of two sizes. It interpolates linearly between the ratios.
func (b *Book) mixed(c *softsphere.Curve, small, large int, ratio float64) {
	b.alike(c, small+large)
	before, row := 1.0, mixedRow(small, large)
	for i, next := range ratios {
		var following softsphere.Curve
		unpack(&following, b.Mixed, row+i)
		share := 1.0
		if ratio < next {
			share = max(0, (ratio-before)/(next-before))
		}
		c.Mix(&following, share)
		if ratio <= next {
			return
		}
		before = next
	}
}
