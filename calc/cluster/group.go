package cluster

import "garlandry/calc/cluster/internal/table"

// bySize returns the balloons of a recipe, smallest first, with parts of the same diameter merged.
func bySize(r Recipe) []table.Group {
	var groups []table.Group
	for i := range r {
		if r[i].Duplets == 0 {
			continue
		}
		diameter, at := r[i].DiameterMM(), 0
		for at < len(groups) && groups[at].Diameter < diameter {
			at++
		}
		if at == len(groups) || groups[at].Diameter != diameter {
			groups = append(groups, table.Group{})
			copy(groups[at+1:], groups[at:])
			groups[at] = table.Group{Diameter: diameter}
		}
		groups[at].Duplets += r[i].Duplets
	}
	return groups
}
