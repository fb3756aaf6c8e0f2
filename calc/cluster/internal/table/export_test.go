package table

import "garlandry/calc/softsphere"

// Substitute exports substitute to tests: the two diameters, each before its duplets.
func Substitute(groups []Group) (small, few, large, many float64) {
	m := momentsOf(groups)
	s := substitute(groups, &m)
	return s.small, float64(m.duplets) - s.many, s.large, s.many
}

// Decode exports decode to tests.
func Decode(text string) (c softsphere.Curve) {
	decode(&c, text)
	return c
}

// FirstRatio is the first ratio of two sizes.
var FirstRatio = ratios[0]
