package cluster

import (
	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/softsphere"
)

// shape is a recipe apart from its size: a curve in shares of a mean diameter,
// and what to add to ball and girth when the curve is a substitute's.
type shape struct {
	curve  softsphere.Curve
	meanMM float64
	addMM  float64
}

// Estimated says that the table has neither the recipe nor its neighbours, so that
// Measure answers for two sizes that stand in: four sizes or more, three sizes of
// more than five duplets, and sizes further apart than most that are twisted
// together.
func Estimated(r Recipe) bool { return !table.Held(bySize(r)) }

// Estimates says that Measure answers with an estimate at this push: the recipe is
// Estimated, and the push's Model, if it has one, has not relaxed it yet.
func (p Push) Estimates(r Recipe) bool { return Estimated(r) && p.model.curve(r) == nil }

// Working says that the push has a Model with something to do.
func (p Push) Working() bool { return p.model.Wants() != "" }

// shapeOf finds the curve of a recipe, its own if a model has relaxed it; false
// when it cannot be built.
func shapeOf(r Recipe, m *Model) (s shape, built bool) {
	if !r.usable() {
		return s, false
	}
	groups := bySize(r)
	s.meanMM, s.addMM = table.Kept.Curve(&s.curve, groups)
	if m == nil || table.Held(groups) {
		return s, true
	}
	if own := m.curve(r); own != nil {
		s.curve.Ball, s.curve.Pitch, s.curve.Girth = own.Ball, own.Pitch, own.Girth
		s.meanMM += s.addMM / 2
		s.addMM = 0
	}
	return s, true
}
