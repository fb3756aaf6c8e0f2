package picture

import (
	"strconv"
	"sync"

	"garlandry/calc/cluster"
)

// mostRests is how many results a [Rests] holds: of a recipe up to three, on a string, free and its front.
const mostRests = 64

// Rests holds how clusters come to rest, so that each recipe is relaxed only once: that takes most of the time of a
// picture. What it holds is what would be computed anew. The zero Rests is ready, a nil one holds nothing. It is safe
// for concurrent use. It does not use calc/cache: another copy of that would make the core 5 kB larger.
type Rests struct {
	mu   sync.Mutex
	held [mostRests]*rested
	next int // of held, to be replaced
}

// rested is what is held of a recipe: its clusters on a string, one that is free, or the front of one.
type rested struct {
	key string
	model
	free  []member
	front []Balloon
}

// of returns what is held under a key; it computes it first if nothing is.
func (h *Rests) of(key string, compute func(*rested)) *rested {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, found := range h.held {
		if found != nil && found.key == key {
			return found
		}
	}
	fresh := &rested{key: key}
	compute(fresh)
	h.held[h.next] = fresh
	h.next = (h.next + 1) % mostRests
	return fresh
}

// modelOf returns what modelOf does.
func (h *Rests) modelOf(r cluster.Recipe, push cluster.Push) model {
	if h == nil {
		return modelOf(r, push)
	}
	shown, key := cluster.Measure(r, push), "string "+r.String()
	for _, mm := range [...]float64{shown.PitchMM, shown.WidthMM, shown.WidestMM} { // all that a model depends on
		key += " " + strconv.FormatFloat(mm, 'g', -1, 64)
	}
	return h.of(key, func(to *rested) { to.model = modelOf(r, push) }).model
}

// freeOf returns what freeOf does. Nobody may change it.
func (h *Rests) freeOf(r cluster.Recipe) []member {
	if h == nil {
		return freeOf(r)
	}
	return h.of("free "+r.String(), func(to *rested) { to.free = freeOf(r) }).free
}

// Free returns what [Free] does. Nobody may change it.
func (h *Rests) Free(r cluster.Recipe) []Balloon {
	if h == nil {
		return Free(r)
	}
	return h.of("front "+r.String(), func(to *rested) { to.front = Free(r) }).front
}
