package genetic

// alikePct is the share of tasks on which parents must agree before their child is shaken more.
const alikePct = 90

// shake moves a few tasks by up to a quarter of the range of all keys, and changes a few genes: usually one, more if
// the parents are alike.
func (s *Search) shake(same, length int) {
	tasks := len(s.keys)
	moves := 1
	if same*100 >= tasks*alikePct {
		moves += s.source.Below(1 + tasks/2)
	}
	reach := length / 4
	for range moves {
		s.keys[s.source.Below(tasks)] += s.source.Below(2*reach+1) - reach
	}
	if !s.genes {
		return
	}
	for range moves {
		task := s.source.Below(tasks)
		s.child.Genes[task] = uint8(s.source.Below(s.problem.Genes(task)))
	}
}
