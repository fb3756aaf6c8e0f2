package stock

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"garlandry/calc/stable"
)

// remainderGrain is the precision for comparing remainders. Those closer than one part in 10^8 of a whole tie.
const remainderGrain = 1e8

// Split divides total by weights into whole numbers that sum exactly to it, by largest remainder (Hamilton's method).
// Each weight gets the whole part of its quota total x weight / sum of weights, and the rest goes one each to the
// largest remainders. Equal remainders go to the larger weight, then to the earlier in the list.
//
// No colour is left out: if total is at least the number of weights above 0 and the method would give one of them
// nothing, it gets 1 and the rest is split again among the others. A weight of 0 always gets 0.
//
// Split returns one share per weight, in the same order, never nil. Weights are relative and need not sum to anything.
// Errors: ErrCount for a total outside 0 to [LargestNeed]; ErrWeight for a negative or non-finite weight, more than
// [MostWeights] of them, or none above 0 with something to share.
func Split(total int, weights []float64) ([]int, error) {
	if err := checkCount("total", total); err != nil {
		return nil, err
	}
	if err := checkWeights(total, weights); err != nil {
		return nil, err
	}
	shares := make([]int, len(weights))
	open := make([]int, 0, len(weights))
	for i, weight := range weights {
		if weight > 0 {
			open = append(open, i)
		}
	}
	rest, keepAll := total, total >= len(open)
	for rest > 0 {
		largestRemainder(rest, weights, open, shares)
		served := open[:0:0]
		for _, i := range open {
			if shares[i] == 0 && keepAll {
				shares[i] = 1
				rest--
			} else {
				served = append(served, i)
			}
		}
		if len(served) == len(open) {
			break
		}
		open = served
	}
	return shares, nil
}

func checkWeights(total int, weights []float64) error {
	if len(weights) > MostWeights {
		return fmt.Errorf("%d weights: %w, at most %d", len(weights), ErrWeight, MostWeights)
	}
	positive := false
	for i, weight := range weights {
		if !(weight >= 0) || math.IsInf(weight, 0) {
			return fmt.Errorf("weight %d is %g: %w, 0 or more", i+1, weight, ErrWeight)
		}
		positive = positive || weight > 0
	}
	if total > 0 && !positive {
		return fmt.Errorf("%d to share: %w, at least one weight above 0", total, ErrWeight)
	}
	return nil
}

// largestRemainder divides total among the open indices and writes the shares.
func largestRemainder(total int, weights []float64, open, shares []int) {
	sum, largest := orderlySum(weights, open)
	turn := slices.Clone(open)
	remainders := make([]int64, len(weights))
	left := total
	for _, i := range open {
		quota := float64(total) * (weights[i] / largest / sum)
		grains := int64(math.Round(float64(quota * remainderGrain)))
		shares[i] = int(grains / remainderGrain)
		remainders[i] = grains % remainderGrain
		left -= shares[i]
	}
	stable.Sort(turn, func(i, j int) int {
		return cmp.Or(cmp.Compare(remainders[j], remainders[i]), cmp.Compare(weights[j], weights[i]))
	})
	for n := range left {
		shares[turn[n%len(turn)]]++
	}
}

// orderlySum returns the sum of the open weights divided by the largest of them. It adds from the smallest up, so it
// does not depend on the order of the list, and scaling keeps it from overflowing.
func orderlySum(weights []float64, open []int) (sum, largest float64) {
	sorted := make([]float64, 0, len(open))
	for _, i := range open {
		sorted = append(sorted, weights[i])
	}
	stable.Floats(sorted)
	largest = sorted[len(sorted)-1]
	for _, weight := range sorted {
		sum += weight / largest
	}
	return sum, largest
}
