package cluster

import (
	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/nest"
)

// shape is a recipe apart from its size: a curve in shares of a mean diameter,
// and what to add to ball and girth when the curve is that of a stand-in.
type shape struct {
	curve  nest.Curve
	meanMM float64
	addMM  float64
}

// Estimated says that the table has neither the recipe nor its neighbours, so that
// Measure answers for two sizes that stand in: four sizes or more, three sizes of
// more than four duplets, and sizes further apart than most that are twisted
// together.
func Estimated(r Recipe) bool { return !table.Held(bySize(r)) }

// Estimates says that Measure answers with an estimate at this push: the recipe is
// Estimated, and the push's Model, if it has one, has not relaxed it yet.
func (p Push) Estimates(r Recipe) bool {
	if !Estimated(r) {
		return false
	}
	_, relaxed := p.model.curve(r)
	return !relaxed
}

// shapeOf finds the curve of a recipe, its own if a model has relaxed it; false
// when it cannot be built.
func (m *Model) shapeOf(r Recipe) (shape, bool) {
	if !r.usable() {
		return shape{}, false
	}
	groups := bySize(r)
	var s shape
	s.curve, s.meanMM, s.addMM = table.Kept().Curve(groups)
	if m == nil || table.Held(groups) {
		return s, true
	}
	if own, relaxed := m.curve(r); relaxed {
		s = shape{curve: own}
		for _, d := range r.DiametersMM() {
			s.meanMM += d / float64(r.Balloons())
		}
	}
	return s, true
}
