package cluster

import (
	"math"
	"slices"

	"garlandry/calc/order"
)

// group is the balloons of a recipe that are near enough in size to be one.
type group struct {
	duplets    float64 // whole, except in a stand-in
	diameterMM float64
}

// bySize merges parts sized to the same diameter, smallest first.
func bySize(r Recipe) []group {
	var groups []group
	for _, part := range r {
		if part.Duplets == 0 {
			continue
		}
		i := slices.IndexFunc(groups, func(g group) bool { return g.diameterMM == part.DiameterMM() })
		if i >= 0 {
			groups[i].duplets += float64(part.Duplets)
			continue
		}
		groups = append(groups, group{float64(part.Duplets), part.DiameterMM()})
	}
	order.By(groups, func(i, j int) bool { return groups[i].diameterMM < groups[j].diameterMM })
	return groups
}

// twoGroups splits three sizes or more where the two halves are most alike
// within, and puts a stand-in for each half.
func twoGroups(groups []group) []group {
	best, least := 1, math.Inf(1)
	for split := 1; split < len(groups); split++ {
		if spread := spreadOf(groups[:split]) + spreadOf(groups[split:]); spread < least {
			best, least = split, spread
		}
	}
	return []group{standIn(groups[:best]), standIn(groups[best:])}
}

// standIn is balloons alike with the volume of a group: small balloons that lie
// in the gaps of large ones count for as little as they take.
func standIn(groups []group) group {
	volume, diameter := bulkOf(groups)
	return group{volume / float64(diameter*diameter*diameter), diameter}
}

// bulkOf is the volume of a group, in cubes, and the diameter of its middle.
func bulkOf(groups []group) (volume, diameter float64) {
	weighed := 0.0
	for _, g := range groups {
		volume += g.volume()
		weighed += float64(g.volume() * g.diameterMM)
	}
	return volume, weighed / volume
}

func (g group) volume() float64 {
	return float64(g.duplets * g.diameterMM * g.diameterMM * g.diameterMM)
}

// spreadOf is how unlike the balloons of a group are, by volume.
func spreadOf(groups []group) float64 {
	_, middle := bulkOf(groups)
	sum := 0.0
	for _, g := range groups {
		off := g.diameterMM - middle
		sum += float64(g.volume() * off * off)
	}
	return sum
}

func meanOf(groups []group) float64 {
	sum, duplets := 0.0, 0.0
	for _, g := range groups {
		sum += float64(g.duplets * g.diameterMM)
		duplets += g.duplets
	}
	return sum / duplets
}
