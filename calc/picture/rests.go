package picture

import (
	"strconv"

	"garlandry/calc/cache"
	"garlandry/calc/cluster"
)

// Rests holds how clusters come to rest, so that each recipe is relaxed only once: that takes most of the time of a
// picture. What it holds is what would be computed anew. The zero Rests is ready, a nil one holds nothing. Several may
// use one at once.
type Rests struct {
	models, fronts, free cache.Cache[string, *rested]
}

// rested is what is held of a recipe: its clusters on a string, one that is free, or the front of one.
type rested struct {
	model
	free  []member
	front []Balloon
}

// modelOf returns what modelOf does.
func (h *Rests) modelOf(r cluster.Recipe, push cluster.Push) model {
	if h == nil {
		return modelOf(r, push)
	}
	shown, key := cluster.Measure(r, push), r.String()
	for _, mm := range [...]float64{shown.PitchMM, shown.WidthMM, shown.WidestMM} { // all that a model depends on
		key += " " + strconv.FormatFloat(mm, 'g', -1, 64)
	}
	return held(&h.models, key, func(to *rested) { to.model = modelOf(r, push) }).model
}

// freeOf returns what freeOf does. Nobody may change it.
func (h *Rests) freeOf(r cluster.Recipe) []member {
	if h == nil {
		return freeOf(r)
	}
	return held(&h.free, r.String(), func(to *rested) { to.free = freeOf(r) }).free
}

// Free returns what [Free] does. Nobody may change it.
func (h *Rests) Free(r cluster.Recipe) []Balloon {
	return held(&h.fronts, r.String(), func(to *rested) { to.front = Free(r) }).front
}

// held returns what is held under a key; it computes it first if nothing is.
func held(in *cache.Cache[string, *rested], key string, compute func(*rested)) *rested {
	found, is := in.Get(key)
	if !is {
		found = &rested{}
		compute(found)
		in.Put(key, found)
	}
	return found
}
