package genetic

import "garlandry/calc/rng"

// How many plans each side keeps: enough not to converge too soon, few enough for many generations within the budget.
// Tuned on a part of PSPLIB, as are the figures in cross.go and shake.go.
const (
	schedulesForEach = 60
	leastPlans       = 6
	mostPlans        = 60
)

// Search holds the two populations and the cost of the best plan so far.
type Search struct {
	problem Problem
	source  rng.Source
	genes   bool
	sides   [2][]Plan // left, right
	side    int       // the one that receives children
	next    int       // index of the next child
	born    int       // plans of the first population so far
	first   []Plan    // the plans to begin with
	spread  int       // of the keys of the first order
	child   Plan
	least   int // cost of the best plan of the left side
	seen    bool
	used    int
	pause   func()
	keys    []int
	orders  [2][]int // of father and mother
	placed  []bool
}

// New returns a search that has not begun. The budget is the expected number of schedules: it only decides how many
// plans are kept, and may be exceeded. first holds at least one plan to begin with: its starts are used as keys, and
// its genes. Further plans are drawn around the first one.
func New(problem Problem, seed uint64, budget int, first []Plan) *Search {
	n := problem.Tasks()
	s := &Search{problem: problem, source: rng.New(seed), first: first, keys: make([]int, n), placed: make([]bool, n)}
	for task := range n {
		s.genes = s.genes || problem.Genes(task) > 1
	}
	plans := max(leastPlans, min(mostPlans, budget/schedulesForEach))
	for side := range s.sides {
		s.sides[side] = make([]Plan, plans)
		s.orders[side] = make([]int, n)
		for i := range s.sides[side] {
			s.sides[side][i] = NewPlan(n, s.genes)
		}
	}
	s.child = NewPlan(n, s.genes)
	low, high := 0, 0
	for task, key := range first[0].Start {
		if task == 0 {
			low, high = key, key
		}
		low, high = min(low, key), max(high, key)
	}
	s.spread = high - low
	return s
}

// Left returns the plans of the left side, in no order. Improve overwrites them.
func (s *Search) Left() []Plan { return s.sides[0][:min(s.born, len(s.sides[0]))] }

// Pause sets a function to call after every generated schedule; nil: none. It does not change the result.
func (s *Search) Pause(pause func()) { s.pause = pause }

// Used returns how many schedules were generated so far.
func (s *Search) Used() int { return s.used }

// Proven reports whether the best plan costs no more than the bound.
func (s *Search) Proven() bool { return s.seen && s.least <= s.problem.Bound() }

// Improve generates at most the given number of further schedules, fewer if the bound is reached.
func (s *Search) Improve(schedules int) {
	for end := s.used + schedules; s.used < end && !s.Proven(); {
		if s.born < len(s.sides[0]) {
			s.begin()
		} else {
			s.breed(end)
		}
		if s.pause != nil {
			s.pause()
		}
	}
}

// begin adds a plan to the first population: first those given, then the first one with its keys shaken by as much as
// they spread.
func (s *Search) begin() {
	plan := &s.sides[0][s.born]
	if s.born < len(s.first) {
		copy(s.keys, s.first[s.born].Start)
		copy(plan.Genes, s.first[s.born].Genes)
	} else {
		for task, key := range s.first[0].Start {
			s.keys[task] = 16*key + s.source.Below(16*s.spread+1)
		}
		for task := range plan.Genes {
			plan.Genes[task] = uint8(s.source.Below(s.problem.Genes(task)))
		}
	}
	s.forward(plan)
	s.born++
	s.side, s.next = 1, 0
}

func (s *Search) forward(plan *Plan) {
	s.problem.Forward(s.keys, plan)
	s.used++
	if !s.seen || plan.Cost < s.least {
		s.seen, s.least = true, plan.Cost
	}
}

// breed makes one child of the other side's next parent. The child replaces the plan in that row unless it costs more.
func (s *Search) breed(end int) {
	from, into := s.sides[1-s.side], s.sides[s.side]
	father := &from[s.next]
	mother := s.tournament(from, s.next)
	s.cross(father, mother)
	if s.side == 0 {
		s.forward(&s.child)
	} else {
		s.problem.Backward(s.keys, &s.child)
		s.used++
		if s.child.Cost < s.least && s.used < end {
			s.justify(&s.child)
		}
	}
	if s.born < 2*len(into) {
		s.born++ // the right side's first plans replace nothing
		s.child.Copy(&into[s.next])
	} else if s.child.Cost <= into[s.next].Cost {
		s.child.Copy(&into[s.next])
	}
	if s.next++; s.next == len(into) {
		s.next, s.side = 0, 1-s.side
	}
}

// justify pushes a right plan to the left, which usually makes it no worse, so that it can be kept.
func (s *Search) justify(right *Plan) {
	copy(s.keys, right.Start)
	left := NewPlan(len(s.keys), s.genes)
	copy(left.Genes, right.Genes)
	s.forward(&left)
}

// tournament returns the better of two random plans other than the one at besides.
func (s *Search) tournament(from []Plan, besides int) *Plan {
	pick := func() *Plan {
		i := s.source.Below(len(from) - 1)
		if i >= besides {
			i++
		}
		return &from[i]
	}
	a, b := pick(), pick()
	if b.Cost < a.Cost {
		return b
	}
	return a
}
