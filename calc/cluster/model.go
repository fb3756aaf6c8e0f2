package cluster

import (
	"sync"

	"garlandry/calc/softsphere"
)

// Model relaxes recipes that the table does not hold with calc/softsphere itself and keeps
// what it found. A Push that has been given one (see [Push.By]) asks it: until the
// recipe is relaxed the answer is the estimate, and the recipe is noted for Work.
// Coverage stays the estimate, which is within two percent of the band. It is for
// whoever looks closer at one recipe, not for plans: phone and server need not have
// relaxed the same. The zero Model is ready; its methods may be called from many
// goroutines. A nil Model relaxes nothing.
type Model struct {
	// AtOnce relaxes a recipe as soon as it is asked for, which takes one to five
	// seconds on one core. It is set before the Model is used.
	AtOnce bool

	mu    sync.Mutex
	all   [mostRelaxed]*relaxed
	made  int // how many of them, and of others before
	asked int // how often another recipe was asked for than before
}

// relaxed is a recipe that was asked for.
type relaxed struct {
	recipe    string
	diameters []float64
	asked     int
	curve     *softsphere.Curve // nil until it has been relaxed
	done      bool              // also when it cannot be relaxed
}

const (
	mostRelaxed = 64 // recipes that a Model keeps
	mostWanted  = 4  // of the recipes asked for last, those that Work works on
)

// Work relaxes what was asked for, last asked first, until nothing is left: one to
// five seconds a recipe on one core. It calls pause every millisecond or two, holding
// nothing; a pause that does not come back leaves the recipe for the next Work.
func (m *Model) Work(pause func()) {
	for r := m.next(); r != nil; r = m.next() {
		m.relax(r, pause)
	}
}

// Wants is the recipe that Work works on next; "" if nothing is left.
func (m *Model) Wants() string {
	if r := m.next(); r != nil {
		return r.recipe
	}
	return ""
}

// next is what Work works on next; nil if nothing is left.
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

// curve is the recipe's own, nil until it has been relaxed.
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

// note puts down that the recipe was asked for.
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
