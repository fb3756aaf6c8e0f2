package cluster

// Kept says whether a model has relaxed the recipe, without asking it to.
func (m *Model) Kept(r Recipe) bool { _, kept := m.kept[r.String()]; return kept }
