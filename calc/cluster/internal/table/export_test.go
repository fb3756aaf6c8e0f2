package table

// StandIn opens standIn to tests: the two diameters, each before its duplets.
func StandIn(groups []Group) (small, few, large, many float64) {
	s := standIn(groups)
	return s.small, float64(s.duplets) - s.largeDuplets, s.large, s.largeDuplets
}
