package cluster

import (
	"slices"

	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/order"
)

// bySize is the balloons of a recipe, parts sized to the same diameter merged,
// smallest first.
func bySize(r Recipe) []table.Group {
	var groups []table.Group
	for _, part := range r {
		if part.Duplets == 0 {
			continue
		}
		i := slices.IndexFunc(groups, func(g table.Group) bool { return g.Diameter == part.DiameterMM() })
		if i >= 0 {
			groups[i].Duplets += part.Duplets
			continue
		}
		groups = append(groups, table.Group{Duplets: part.Duplets, Diameter: part.DiameterMM()})
	}
	order.By(groups, func(i, j int) bool { return groups[i].Diameter < groups[j].Diameter })
	return groups
}
