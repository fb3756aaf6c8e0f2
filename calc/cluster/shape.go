package cluster

import (
	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/softsphere"
)

// shape is a recipe without its size: a curve in shares of a mean diameter.
type shape struct {
	curve  softsphere.Curve
	meanMM float64
}

// Estimated reports whether the table has neither the recipe nor its neighbours. The pitch and the coverage are then
// those of two sizes that replace it. This holds for four or more sizes, for three sizes with more than five duplets,
// and for sizes unusually far apart.
func Estimated(r Recipe) bool { return !table.Held(bySize(r)) }

// Estimates reports whether Measure answers with an estimate at this push: the recipe is Estimated, and no Model of
// the push has relaxed it yet.
func (p Push) Estimates(r Recipe) bool { return Estimated(r) && p.model.curve(r) == nil }

// Working reports whether the push has a Model with something to do.
func (p Push) Working() bool { return p.model.Wants() != "" }

// shapeOf returns the curve of a recipe, its own if a model has relaxed it. It returns false if the recipe cannot be
// built.
func shapeOf(r Recipe, m *Model) (s shape, built bool) {
	if !r.usable() {
		return s, false
	}
	groups := bySize(r)
	s.meanMM = table.Kept.Rising(&s.curve, groups)
	if m == nil || table.Held(groups) {
		return s, true
	}
	if own := m.curve(r); own != nil {
		s.curve.Pitch = own.Pitch
		s.meanMM = meanMM(r)
	}
	return s, true
}

// meanMM returns the mean diameter of a recipe's balloons.
func meanMM(r Recipe) float64 {
	diameters, sum := r.DiametersMM(), 0.0
	for _, d := range diameters {
		sum += d
	}
	return sum / float64(len(diameters))
}
