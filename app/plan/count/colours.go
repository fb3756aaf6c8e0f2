package count

import (
	"math"

	"garlandry/app/job"
	"garlandry/calc/stock"
)

// Undecided is the colour where none was chosen. Its id holds a dot, which no palette id can.
func Undecided() job.Colour {
	return job.Colour{ID: "not.chosen", Name: "colour not chosen", Value: "#c8c8c8", Finish: "standard"}
}

// weighted is a colour of the palette with its weight in a piece.
type weighted struct {
	job.Colour
	weight float64
}

// palette resolves shares: colours that are no longer in the palette fall away, equal colours are merged, in the order
// given. If every weight is zero all count alike. With nothing left it is the undecided colour alone.
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
	kept := list[:0]
	for _, w := range list {
		if w.weight > 0 {
			kept = append(kept, w)
		}
	}
	return kept
}

// deal shares balloons of one size over colours, exactly, and puts them into the piece.
func (d *Draft) deal(c *Counted, sizeIn int, toIn float64, total int, colours []job.Colour, weights []float64) {
	for i, n := range split(total, weights) {
		c.add(sizeIn, toIn, colours[i], n)
	}
}

// split is [stock.Split] without its limit: a larger total is shared out in several goes, which still sum exactly.
func split(total int, weights []float64) []int {
	sum := make([]int, len(weights))
	for total > 0 {
		now := min(total, stock.LargestNeed)
		total -= now
		shares, err := stock.Split(now, weights)
		if err != nil {
			shares = make([]int, len(weights)) // no usable weight: the first takes all, so that none is lost
			shares[0] = now
		}
		for i, n := range shares {
			sum[i] += n
		}
	}
	return sum
}

// allot deals whole clusters one after another, each to the group that is furthest behind its weight, by equal
// proportions (Huntington 1921, used for the seats of the US House since 1941): the next goes where
// weight / sqrt(a (a+1)) is largest, a being what the group has. Unlike the largest remainder no group ever loses a
// cluster when there are more to deal, so counts never fall when a base grows; and none is left out while there are
// enough. Equal claims go to the earlier group. Weights must be above zero.
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

// headStart deals at once what is sure to be dealt of a large total, and says how many that is. Every claim it grants
// is above a mark that at most total claims reach, one a group and total/1.001 besides, so the dealing that follows
// ends where it would have ended from nothing.
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
