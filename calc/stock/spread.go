package stock

import (
	"fmt"
	"slices"
)

// Spread gives a colour to each of clusters x each things (duplets or balloons, each of them per cluster). It returns
// one sorted list of colour indices into weights per cluster, in their order along the piece, and the total of each
// colour, which is [Split] of clusters x each.
//
// The colours are spread along the piece as evenly as possible: after any number of things, every colour is less than
// one thing away from its share so far (Tijdeman's rule for the chairman assignment problem, 1980). So two halves of a
// piece look alike, and a section looks like the whole.
//
// With each = 1 every cluster has one colour. Errors are those of [Split], and ErrCount for a negative count or more
// than [LargestNeed] things.
func Spread(clusters, each int, weights []float64) (colours [][]int, totals []int, err error) {
	if err := checkCount("clusters", clusters); err != nil {
		return nil, nil, err
	}
	if err := checkCount("things in a cluster", each); err != nil {
		return nil, nil, err
	}
	if err := checkCount("things", clusters*each); err != nil {
		return nil, nil, err
	}
	totals, err = Split(clusters*each, weights)
	if err != nil {
		return nil, nil, fmt.Errorf("spread over %d clusters: %w", clusters, err)
	}
	dealt := deal(totals)
	colours = make([][]int, clusters)
	for i := range colours {
		colours[i] = dealt[i*each : (i+1)*each : (i+1)*each]
		slices.Sort(colours[i])
	}
	return colours, totals, nil
}

// deal orders totals[j] things of each colour j. At each step, only colours that are far enough behind their share may
// come next; of these it picks the one with the earliest deadline, when it would be a whole thing behind. It uses whole
// numbers: with n colours and N things, the lag is counted in units of 1/(N (2n-2)).
func deal(totals []int) []int {
	things, used := 0, 0
	for _, total := range totals {
		things += total
		if total > 0 {
			used++
		}
	}
	dealt := make([]int, 0, things)
	counts := make([]int, len(totals))
	for step := 1; step <= things; step++ {
		next := nextColour(totals, counts, step, things, used)
		counts[next]++
		dealt = append(dealt, next)
	}
	return dealt
}

// nextColour compares, for each colour j with share s = totals[j]/things, the
// lag s·step - counts[j] with 1/(2n-2), and the deadlines (1 - 1/(2n-2) +
// counts[j]) / s.
func nextColour(totals, counts []int, step, things, used int) int {
	slots := max(2*used-2, 1)
	next := -1
	for j, total := range totals {
		if counts[j] == total {
			continue
		}
		lag := (total*step - counts[j]*things) * slots
		if used > 1 && lag < things {
			continue
		}
		if next < 0 || soonerDue(counts[j], total, counts[next], totals[next], slots) {
			next = j
		}
	}
	return next
}

func soonerDue(countA, totalA, countB, totalB, slots int) bool {
	return (slots-1+slots*countA)*totalB < (slots-1+slots*countB)*totalA
}
