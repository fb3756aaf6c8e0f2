package job

// Work returns how many stamps folding compared, and how many entries it moved.
func (s *State) Work() (compared, moved int) { return s.work.compared, s.work.moved }
