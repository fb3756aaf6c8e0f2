package count

import (
	"math"

	"garlandry/app/job"
	"garlandry/calc/stock"
)

// Undecided is the colour where none is chosen. No palette id can hold a dot.
func Undecided() job.Colour {
	return job.Colour{ID: "not.chosen", Name: "colour not chosen", Value: "#c8c8c8", Finish: "standard"}
}

// weighted is a colour of the palette with its weight in a piece.
type weighted struct {
	job.Colour
	weight float64
}

// palette resolves shares in the order given: it drops colours that are no longer in the palette and merges equal ones.
// If every weight is zero, all count alike. If nothing is left, it returns the undecided colour.
func (d *Draft) palette(shares []job.Share) []weighted {
	var list []weighted
	total := 0.0
	for _, s := range shares {
		colour, known := d.Job.Colour(s.Colour)
		if !known || !(s.Weight >= 0) || math.IsInf(s.Weight, 0) {
			continue
		}
		total += s.Weight
		merged := false
		for i := range list {
			if list[i].ID == colour.ID {
				list[i].weight += s.Weight
				merged = true
			}
		}
		if !merged {
			list = append(list, weighted{colour, s.Weight})
		}
	}
	if len(list) == 0 {
		return []weighted{{Undecided(), 1}}
	}
	if !(total > 0) {
		for i := range list {
			list[i].weight = 1
		}
		return list
	}
	used := list[:0]
	for _, w := range list {
		if w.weight > 0 {
			used = append(used, w)
		}
	}
	return used
}

// split is [stock.Split] without its limit: it splits a larger total in parts, which still sum exactly.
func split(total int, weights []float64) []int {
	sum := make([]int, len(weights))
	for total > 0 {
		now := min(total, stock.LargestNeed)
		total -= now
		shares, err := stock.Split(now, weights)
		if err != nil {
			shares = make([]int, len(weights)) // no usable weight: the first takes all
			shares[0] = now
		}
		for i, n := range shares {
			sum[i] += n
		}
	}
	return sum
}

// allot deals whole clusters one by one by the method of equal proportions (Huntington 1921, used for the seats of the
// US House since 1941): the next goes to the group with the largest weight / sqrt(a (a+1)), where a is what the group
// has. Unlike with the largest remainder, no group loses a cluster when the total grows, and every group gets one while
// there are enough. Equal claims go to the earlier group. Weights must be above zero.
func allot(total int, weights []float64) []int {
	shares := make([]int, len(weights))
	if len(weights) == 1 {
		shares[0] = total
		return shares
	}
	left := total - headStart(shares, total, weights)
	for range left {
		best, most := 0, -1.0
		for i, w := range weights {
			a := float64(shares[i])
			claim := math.Inf(1)
			if a > 0 {
				claim = w / math.Sqrt(float64(a*(a+1)))
			}
			if claim > most {
				best, most = i, claim
			}
		}
		shares[best]++
	}
	return shares
}

// headStart deals at once the clusters of a large total that are certain, and returns how many. Every claim it grants
// is above a mark that at most total claims reach (one a group and total/1.001 besides), so the result does not
// change.
func headStart(shares []int, total int, weights []float64) int {
	if total < 2000*len(weights) {
		return 0
	}
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	mark := 1.001 * (sum / float64(total))
	dealt := 0
	for i, w := range weights {
		shares[i] = max(0, int(w/mark-1.5))
		dealt += shares[i]
	}
	return dealt
}
