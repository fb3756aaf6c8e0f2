package stock

import (
	"cmp"
	"fmt"
	"math"

	"garlandry/calc/stable"
)

// Bag is a kind of bag on offer: how many it holds and its price in cents.
type Bag struct {
	Holds      int `json:"holds"`
	PriceCents int `json:"price_cents"`
}

// Purchase is a list of bags to buy. Counts has one entry for each bag on offer, in the given order; Left is what
// remains of stock and bags after the need.
type Purchase struct {
	Counts    []int `json:"counts"`
	Bags      int   `json:"bags"`
	Bought    int   `json:"bought"`
	CostCents int   `json:"cost_cents"`
	Left      int   `json:"left"`
}

// Bags returns the cheapest way to cover a need when have are in stock. Ties go to the fewest left over, then to the
// fewest bags, then to more of the larger bags. It is exact: a dynamic program over every count up to the need, in time
// need x kinds of bag.
//
// need and have are 0 to [LargestNeed] and a bag holds 1 to [LargestNeed]; a price is 0 to [LargestPriceCts] cents.
// Errors: ErrCount, ErrBag, and ErrNoBags if something must be bought and nothing is on offer.
func Bags(need, have int, bags []Bag) (Purchase, error) {
	if err := checkCount("need", need); err != nil {
		return Purchase{}, err
	}
	if err := checkCount("have", have); err != nil {
		return Purchase{}, err
	}
	if err := checkBags(bags); err != nil {
		return Purchase{}, err
	}
	purchase := Purchase{Counts: make([]int, len(bags))}
	if missing := need - have; missing > 0 {
		if len(bags) == 0 {
			return Purchase{}, fmt.Errorf("%d missing: %w", missing, ErrNoBags)
		}
		cheapest(missing, bags, purchase.Counts)
	}
	for i, count := range purchase.Counts {
		purchase.Bags += count
		purchase.Bought += count * bags[i].Holds
		purchase.CostCents += count * bags[i].PriceCents
	}
	purchase.Left = have + purchase.Bought - need
	return purchase, nil
}

func checkBags(bags []Bag) error {
	if len(bags) > MostBagKinds {
		return fmt.Errorf("%d kinds of bag: %w, at most %d", len(bags), ErrBag, MostBagKinds)
	}
	for i, bag := range bags {
		if bag.Holds < 1 || bag.Holds > LargestNeed {
			return fmt.Errorf("bag %d holds %d: %w, 1 to %d", i+1, bag.Holds, ErrBag, LargestNeed)
		}
		if bag.PriceCents < 0 || bag.PriceCents > LargestPriceCts {
			return fmt.Errorf("bag %d costs %d cents: %w, 0 to %d", i+1, bag.PriceCents, ErrBag, LargestPriceCts)
		}
	}
	return nil
}

// bagShift packs the numbers of balloons and bags bought into one number that adds and compares as the pair does. There
// are never 2^20 bags.
const bagShift = 20

// cheapest adds to counts the bags that cover missing. For every count up to missing it stores the best way to cover
// it: its cents, its balloons and bags packed into one number, and one of its bags. The best way to cover a count is
// one bag more than the best way to cover what that bag leaves.
func cheapest(missing int, bags []Bag, counts []int) {
	order := choiceOrder(bags)
	cents := make([]int64, missing+1)
	packed := make([]int64, missing+1)
	chosen := make([]uint8, missing+1)
	for covered := 1; covered <= missing; covered++ {
		leastCents, leastPacked, choice := int64(math.MaxInt64), int64(math.MaxInt64), 0
		for position, index := range order {
			bag := &bags[index]
			before := max(0, covered-bag.Holds)
			costs := cents[before] + int64(bag.PriceCents)
			if costs > leastCents {
				continue
			}
			holds := packed[before] + int64(bag.Holds)<<bagShift + 1
			if costs < leastCents || holds < leastPacked {
				leastCents, leastPacked, choice = costs, holds, position
			}
		}
		cents[covered], packed[covered], chosen[covered] = leastCents, leastPacked, uint8(choice)
	}
	for open := missing; open > 0; {
		index := order[chosen[open]]
		counts[index]++
		open -= bags[index].Holds
	}
}

// choiceOrder returns the bags' indices, larger bags first, then earlier ones. This makes the answer independent of the
// order of different bags.
func choiceOrder(bags []Bag) []int {
	indexes := make([]int, len(bags))
	for i := range indexes {
		indexes[i] = i
	}
	stable.Sort(indexes, func(a, b int) int { return cmp.Compare(bags[b].Holds, bags[a].Holds) })
	return indexes
}
