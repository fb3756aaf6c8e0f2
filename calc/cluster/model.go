package cluster

import (
	"sync"

	"garlandry/calc/nest"
)

// Model relaxes recipes that the table does not hold with calc/nest itself and keeps
// what it found. A Push that has been given one (see [Push.By]) asks it: until the
// recipe is relaxed the answer is the estimate, and the recipe is put on the list of
// what Step works on. It is for whoever looks closer at one recipe, not for plans:
// phone and server need not have relaxed the same. The zero Model is ready; its
// methods may be called from many goroutines. A nil Model relaxes nothing.
type Model struct {
	// AtOnce relaxes a recipe as soon as it is asked for, which takes one to five
	// seconds on one core. It is set before the Model is used.
	AtOnce bool

	mu     sync.Mutex
	kept   map[string]nest.Curve
	wanted []wanted // the one asked for last is last
}

type wanted struct {
	recipe string
	work   *nest.Work
}

// How many recipes a Model keeps, and how many it has on its list: of more, those
// asked for first are forgotten.
const (
	mostRelaxed = 64
	mostWanted  = 4
)

// Step works on the recipe asked for last, for 1 to 2 ms on one core, and says
// whether anything is left to do.
func (m *Model) Step() bool {
	if m == nil {
		return false
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if last := len(m.wanted) - 1; last >= 0 && !m.wanted[last].work.Step() {
		m.keep(last)
	}
	return len(m.wanted) > 0
}

// Working says that the push has a Model which is behind with some recipe.
func (p Push) Working() bool { return p.model.Behind() }

// Behind says whether a recipe is on the list.
func (m *Model) Behind() bool {
	if m == nil {
		return false
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return len(m.wanted) > 0
}

// curve is the recipe's own, and whether it has been relaxed; if not, it is put on
// the list.
func (m *Model) curve(r Recipe) (nest.Curve, bool) {
	if m == nil {
		return nest.Curve{}, false
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	recipe := r.String()
	if curve, kept := m.kept[recipe]; kept {
		return curve, true
	}
	at := m.want(recipe, r)
	if at < 0 || !m.AtOnce {
		return nest.Curve{}, false
	}
	for m.wanted[at].work.Step() {
	}
	m.keep(at)
	return m.kept[recipe], true
}

// want puts a recipe last on the list and gives its place; -1 if it cannot be relaxed.
func (m *Model) want(recipe string, r Recipe) int {
	next := wanted{recipe: recipe}
	for i, w := range m.wanted {
		if w.recipe == recipe {
			next = w
			m.wanted = append(m.wanted[:i], m.wanted[i+1:]...)
			break
		}
	}
	if next.work == nil {
		work, err := nest.NewWork(r.DiametersMM())
		if err != nil {
			return -1
		}
		next.work = work
	}
	if len(m.wanted) == mostWanted {
		m.wanted = append(m.wanted[:0], m.wanted[1:]...)
	}
	m.wanted = append(m.wanted, next)
	return len(m.wanted) - 1
}

// keep moves a recipe from the list to what is known.
func (m *Model) keep(at int) {
	if m.kept == nil || len(m.kept) == mostRelaxed {
		m.kept = map[string]nest.Curve{}
	}
	m.kept[m.wanted[at].recipe] = m.wanted[at].work.Curve()
	m.wanted = append(m.wanted[:at], m.wanted[at+1:]...)
}
