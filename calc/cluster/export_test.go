package cluster

// Kept reports whether a model has relaxed the recipe, without requesting it.
func (m *Model) Kept(r Recipe) bool {
	for _, known := range m.all {
		if known != nil && known.recipe == r.String() {
			return known.done
		}
	}
	return false
}
