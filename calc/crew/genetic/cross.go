package genetic

// far puts the tasks of one parent wholly before or after those of the other.
const far = 1 << 40

// stretches is how many stretches of time are compared to find a busy one.
const stretches = 2

// cross writes the keys and genes of a child, in one of two ways chosen at random. byTime keeps the father's tasks of a
// busy stretch together (Debels and Vanhoucke). byOrder fills a stretch of the mother's order from the father's (the
// two-point crossover of S. Hartmann, "A competitive genetic algorithm for resource-constrained project scheduling",
// Naval Research Logistics 45, 1998). The second disturbs less; the first keeps populations from converging.
func (s *Search) cross(father, mother *Plan) {
	if len(s.keys) == 0 {
		return
	}
	if s.source.Below(2) == 0 {
		s.byTime(father, mother)
		return
	}
	s.byOrder(father, mother)
}

// key returns the sort key of a parent's task for the child's side.
func (s *Search) key(parent *Plan, task int) int {
	if s.side == 1 {
		return -parent.Finish[task]
	}
	return parent.Start[task]
}

func (s *Search) byTime(father, mother *Plan) {
	from, to, length := s.stretch(father)
	same := 0
	for task := range s.keys {
		inside := father.Start[task] >= from && father.Start[task] < to
		before := mother.Start[task] < from
		if s.side == 1 {
			before = mother.Finish[task] > to
		}
		f, m := s.key(father, task), s.key(mother, task)
		switch {
		case inside:
			s.keys[task] = f
		case before:
			s.keys[task] = m - far
		default:
			s.keys[task] = m + far
		}
		if f == m {
			same++
		}
		s.inherit(task, inside, father, mother)
	}
	s.shake(same, length)
}

// stretch returns the busier of two random stretches, each a quarter to three quarters of a plan's length.
func (s *Search) stretch(plan *Plan) (from, to, length int) {
	first, last := plan.Start[0], plan.Finish[0]
	for task := range plan.Start {
		first, last = min(first, plan.Start[task]), max(last, plan.Finish[task])
	}
	length = last - first
	if length < 2 {
		return first, last, length
	}
	width := length/4 + s.source.Below(length/2+1)
	most := -1
	for range stretches {
		at := first + s.source.Below(length-width+1)
		if busy := s.busy(plan, at, at+width); busy > most {
			most, from, to = busy, at, at+width
		}
	}
	return from, to, length
}

// busy returns how much of the scarce resources is used between two minutes.
func (s *Search) busy(plan *Plan, from, to int) int {
	sum := 0
	for task := range plan.Start {
		if shared := min(to, plan.Finish[task]) - max(from, plan.Start[task]); shared > 0 {
			sum += shared * s.problem.Weight(task)
		}
	}
	return sum
}

// step is the distance between the keys of neighbours in an order, so that shaking can put a task between two others.
const step = 1 << 10

func (s *Search) byOrder(father, mother *Plan) {
	n := len(s.keys)
	s.order(0, father)
	s.order(1, mother)
	width := n/4 + s.source.Below(n/2+1)
	from := s.source.Below(n - width + 1)
	clear(s.placed)
	count := 0
	put := func(task int, ofFather bool) {
		if !s.placed[task] {
			s.placed[task] = true
			s.keys[task] = count * step
			s.inherit(task, ofFather, father, mother)
			count++
		}
	}
	for _, task := range s.orders[1][:from] {
		put(task, false)
	}
	for _, task := range s.orders[0] {
		if count >= from+width {
			break
		}
		put(task, true)
	}
	same := 0
	for at, task := range s.orders[1] {
		put(task, false)
		if s.orders[0][at] == task {
			same++
		}
	}
	s.shake(same, n*step)
}

// order sorts the tasks of a parent by key, then by number. Usually few are out of place, so it uses insertion sort.
func (s *Search) order(which int, parent *Plan) {
	order := s.orders[which]
	for task := range order {
		key, at := s.key(parent, task), task
		for at > 0 && s.key(parent, order[at-1]) > key {
			order[at] = order[at-1]
			at--
		}
		order[at] = task
	}
}

func (s *Search) inherit(task int, ofFather bool, father, mother *Plan) {
	if !s.genes {
		return
	}
	s.child.Genes[task] = mother.Genes[task]
	if ofFather {
		s.child.Genes[task] = father.Genes[task]
	}
}
