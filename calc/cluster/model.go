package cluster

import (
	"sync"

	"garlandry/calc/softsphere"
)

// Model relaxes recipes that are not in the table with calc/softsphere and caches the results. A [Push] that has a
// Model (see [Push.By]) uses it. Until a recipe is relaxed, the answer is the estimate, and Work has the recipe to do.
// Coverage stays the estimate, which is within five percent of the band. Use a Model to look closer at one recipe, not
// for plans: phone and server may have relaxed different recipes, and a relaxed pitch may fall when a duplet is added.
// The zero Model is ready to use; its methods are safe for concurrent use. A nil Model relaxes nothing.
//
// It does not use calc/cache, because Work searches all entries for the latest request.
type Model struct {
	// AtOnce relaxes a recipe when it is requested, in one to five seconds on one core. Set it before use.
	AtOnce bool

	mu    sync.Mutex
	all   [mostRelaxed]*relaxed
	made  int // recipes replaced since the cache was full
	asked int // requests for another recipe than the request before
}

// relaxed is a requested recipe.
type relaxed struct {
	recipe    string
	diameters []float64
	asked     int
	curve     *softsphere.Curve // nil until it has been relaxed
	done      bool              // also when it cannot be relaxed
}

const (
	mostRelaxed = 64 // recipes that a Model caches
	mostWanted  = 4  // of the latest requests, those that Work relaxes
)

// Work relaxes the requested recipes, the latest first. Each takes one to five seconds on one core. Work calls pause
// every millisecond or two, without a lock. If pause does not return, the next Work does the recipe.
func (m *Model) Work(pause func()) {
	for r := m.next(); r != nil; r = m.next() {
		m.relax(r, pause)
	}
}

// Wants returns the recipe that Work does next, or "".
func (m *Model) Wants() string {
	if r := m.next(); r != nil {
		return r.recipe
	}
	return ""
}

// next returns the entry that Work does next, or nil.
func (m *Model) next() (next *relaxed) {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	for i := range m.all {
		r := m.all[i]
		if r != nil && !r.done && r.asked > m.asked-mostWanted && (next == nil || r.asked > next.asked) {
			next = r
		}
	}
	m.mu.Unlock()
	return next
}

func (m *Model) relax(r *relaxed, pause func()) {
	curve, err := softsphere.Sketch(r.diameters, pause)
	m.mu.Lock()
	r.done = true
	if err == nil {
		r.curve = curve
	}
	m.mu.Unlock()
}

// curve returns the curve of a recipe, or nil until it has been relaxed.
func (m *Model) curve(r Recipe) *softsphere.Curve {
	if m == nil {
		return nil
	}
	found := m.note(r)
	if m.AtOnce && !found.done {
		m.relax(found, nil)
	}
	m.mu.Lock()
	curve := found.curve
	m.mu.Unlock()
	return curve
}

// note records a request for the recipe. A new recipe in a full Model replaces the oldest.
func (m *Model) note(r Recipe) *relaxed {
	asked := &relaxed{recipe: r.String(), diameters: r.DiametersMM()}
	m.mu.Lock()
	at := 0
	for at < mostRelaxed && (m.all[at] == nil || m.all[at].recipe != asked.recipe) {
		at++
	}
	if at == mostRelaxed {
		at = m.made % mostRelaxed
		m.all[at] = asked
		m.made++
	}
	asked = m.all[at]
	if asked.asked == 0 || asked.asked != m.asked {
		m.asked++
		asked.asked = m.asked
	}
	m.mu.Unlock()
	return asked
}
