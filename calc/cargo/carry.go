package cargo

import (
	"cmp"
	"math"
	"slices"

	"garlandry/calc/stable"
)

// Kind is a number of equal things to carry in cars. Each is the litres that one of them needs in each car, 0 where it
// does not go in. Rank says how soon it should arrive, 0 first.
type Kind struct {
	Count int
	Rank  int
	Each  []float64
}

// Trip is one drive of one car. Round is 1 for the drive that everything begins with.
type Trip struct {
	Car, Round int
	Counts     []int // of each kind
	Litres     float64
}

// Ranks is the number of ranks; a higher one counts as the last.
const Ranks = 3

// mostPlaces limits the partial loads that are compared. It does not depend on the cars, so that a larger car never
// changes the method.
const mostPlaces = 200

// Carry divides things over the trips of cars of so many litres. All cars drive in the first round, and in later rounds
// the largest ones, as few as cost no round. It returns the trips that carry anything, in order of rounds, and reports
// false if something goes into no car.
//
// A load is built up in order: when a thing does not fit into a trip, that trip is closed. Every order of kinds, lot by
// lot, is compared by dynamic programming: of two partial loads of the same things, the one that ends in the earlier
// trip, or fills less of the same one, is never worse. So the number of rounds is the least possible if the lots are
// single things, which they are while the product of all counts plus one is at most [mostPlaces]. Else it is at most
// twice that for things that go into every car: a trip and the first thing of the next are more than the car takes. It
// never grows with a larger car or with one more, since next-fit packing is monotonic (F. D. Murgolo, "Anomalous
// behavior in bin packing algorithms", Discrete Applied Mathematics 21, 1988, 229). Among plans with the fewest rounds,
// rank 0 arrives as early as possible, then rank 1.
func Carry(cars []float64, kinds []Kind) ([]Trip, bool) {
	c := newCarrier(cars, kinds)
	if !c.possible() {
		return nil, false
	}
	rounds := c.rounds()
	c.latest = [Ranks]int{rounds, rounds, rounds}
	for rank := range Ranks - 1 {
		low, high := 1, rounds
		for low < high {
			c.latest[rank] = (low + high) / 2
			if c.search() {
				high = c.latest[rank]
			} else {
				low = c.latest[rank] + 1
			}
		}
		c.latest[rank] = high
	}
	for c.later = 1; c.later < len(c.order) && !(c.suffices() && c.search()); {
		c.later++
	}
	c.search()
	return c.trips(), true
}

// Rounds returns in how many rounds [Carry] carries everything, 0 for nothing. Things that go into no car are left out.
func Rounds(cars []float64, kinds []Kind) int {
	c := newCarrier(cars, kinds)
	c.possible()
	return c.rounds()
}

// carrier divides things over trips.
type carrier struct {
	cars   []float64
	kinds  []Kind
	order  []int      // cars, largest first
	later  int        // how many of them drive after the first round
	latest [Ranks]int // the round by which each rank must arrive
	lots   []int      // number of lots of each kind
	sizes  []int      // things in a lot
	places []place
	any    bool // something is to be carried
}

// place is how far the loading has come: the trip, counted from 0, and how full its car is, in litres.
type place struct {
	trip int
	full float64
	last int // the kind loaded last, -1 for none
}

func newCarrier(cars []float64, kinds []Kind) *carrier {
	c := &carrier{cars: cars, kinds: slices.Clone(kinds), later: len(cars)}
	for i := range cars {
		c.order = append(c.order, i)
	}
	stable.Sort(c.order, func(a, b int) int { return cmp.Compare(cars[b], cars[a]) })
	return c
}

// possible divides the kinds into lots and reports whether all of them go into some car. Those that do not are left
// out.
func (c *carrier) possible() bool {
	all := true
	for k := range c.kinds {
		kind := &c.kinds[k]
		kind.Rank = min(max(kind.Rank, 0), Ranks-1)
		takes := false
		for car := range c.cars {
			takes = takes || c.takes(k, car)
		}
		if kind.Count > 0 && !takes {
			all, kind.Count = false, 0
		}
		c.any = c.any || kind.Count > 0
	}
	c.divide()
	return all
}

// divide makes lots: single things, or larger ones, doubled where there are most, while there are too many to compare
// all orders.
func (c *carrier) divide() {
	c.lots, c.sizes = make([]int, len(c.kinds)), make([]int, len(c.kinds))
	for k := range c.kinds {
		c.lots[k], c.sizes[k] = c.kinds[k].Count, 1
	}
	for c.count() > mostPlaces {
		most := 0
		for k := range c.lots {
			if c.lots[k] > c.lots[most] {
				most = k
			}
		}
		if c.lots[most] < 2 {
			return // too many kinds: they are loaded in their order
		}
		c.sizes[most] *= 2
		c.lots[most] = (c.kinds[most].Count + c.sizes[most] - 1) / c.sizes[most]
	}
}

// count returns the number of partial loads, at most one more than [mostPlaces].
func (c *carrier) count() int {
	count := 1
	for _, lots := range c.lots {
		if count *= lots + 1; count > mostPlaces {
			return mostPlaces + 1
		}
	}
	return count
}

// suffices reports whether everything goes into a car of the later rounds.
func (c *carrier) suffices() bool {
	for k := range c.kinds {
		takes := c.kinds[k].Count == 0
		for _, car := range c.order[:c.later] {
			takes = takes || c.takes(k, car)
		}
		if !takes {
			return false
		}
	}
	return true
}

// takes reports whether a thing of a kind goes into a car.
func (c *carrier) takes(kind, car int) bool {
	each := c.kinds[kind].Each[car]
	return each > 0 && fits(each, c.cars[car])
}

// rounds returns the least number of rounds.
func (c *carrier) rounds() int {
	if !c.any {
		return 0
	}
	c.latest = [Ranks]int{math.MaxInt, math.MaxInt, math.MaxInt}
	c.search()
	return c.roundOf(c.places[len(c.places)-1].trip)
}

// roundOf returns the round of a trip.
func (c *carrier) roundOf(trip int) int {
	if trip < len(c.order) {
		return 1
	}
	return 2 + (trip-len(c.order))/c.later
}

// carOf returns the car of a trip.
func (c *carrier) carOf(trip int) int {
	if trip < len(c.order) {
		return c.order[trip]
	}
	return c.order[(trip-len(c.order))%c.later]
}

// search fills in the best place for every partial load, or one for each kind if there are too many. It reports
// whether everything arrives by the latest rounds.
func (c *carrier) search() bool {
	if c.count() > mostPlaces {
		return c.inOrder()
	}
	c.places = make([]place, c.count())
	for at := range c.places {
		c.places[at] = place{trip: -1, last: -1}
	}
	c.places[0].trip = 0
	for at := range c.places {
		if c.places[at].trip < 0 {
			continue
		}
		step := 1
		for k := range c.kinds {
			if lot := at / step % (c.lots[k] + 1); lot < c.lots[k] {
				next := c.load(c.places[at], k, min(c.sizes[k], c.kinds[k].Count-lot*c.sizes[k]), nil)
				if c.roundOf(next.trip) <= c.latest[c.kinds[k].Rank] && next.before(c.places[at+step]) {
					c.places[at+step] = next
				}
			}
			step *= c.lots[k] + 1
		}
	}
	return c.places[len(c.places)-1].trip >= 0
}

// inOrder loads the kinds in their order, those that should arrive first before others.
func (c *carrier) inOrder() bool {
	now := place{last: -1}
	c.places = c.places[:0]
	for rank := range Ranks {
		for k := range c.kinds {
			if c.kinds[k].Rank == rank && c.kinds[k].Count > 0 {
				now = c.load(now, k, c.kinds[k].Count, nil)
				c.places = append(c.places, now)
			}
		}
	}
	return len(c.places) == 0 || c.roundOf(now.trip) <= c.latest[Ranks-1]
}

// before reports whether a place is earlier than another, which may be unset.
func (p place) before(other place) bool {
	return other.trip < 0 || p.trip < other.trip || p.trip == other.trip && p.full < other.full
}

// load loads so many things of a kind from a place on. It calls on, unless nil, for those of each trip.
func (c *carrier) load(now place, k, count int, on func(trip, count int, litres float64)) place {
	now.last = k
	for {
		car := c.carOf(now.trip)
		if each := c.kinds[k].Each[car]; c.takes(k, car) {
			n := min(count, max(0, whole((c.cars[car]-now.full)/each)))
			now.full += float64(float64(n) * each)
			count -= n
			if on != nil && n > 0 {
				on(now.trip, n, float64(n)*each)
			}
		}
		if count == 0 {
			return now
		}
		now.trip, now.full = now.trip+1, 0
	}
}

// trips repeats the best loading and lists its trips.
func (c *carrier) trips() []Trip {
	var list []Trip
	now := place{last: -1}
	for _, lot := range c.best() {
		now = c.load(now, lot.kind, lot.count, func(trip, count int, litres float64) {
			car, round := c.carOf(trip), c.roundOf(trip)
			last := len(list) - 1
			if last < 0 || list[last].Car != car || list[last].Round != round {
				list = append(list, Trip{Car: car, Round: round, Counts: make([]int, len(c.kinds))})
				last++
			}
			list[last].Counts[lot.kind] += count
			list[last].Litres += litres
		})
	}
	return list
}

// lot is a number of things of a kind that are loaded one after another.
type lot struct{ kind, count int }

// best returns the lots of the best loading in their order.
func (c *carrier) best() (list []lot) {
	if c.count() > mostPlaces {
		for _, p := range c.places {
			list = append(list, lot{p.last, c.kinds[p.last].Count})
		}
		return list
	}
	for at := len(c.places) - 1; at > 0; {
		k, step := c.places[at].last, 1
		for i := range k {
			step *= c.lots[i] + 1
		}
		n := at/step%(c.lots[k]+1) - 1
		list = append(list, lot{k, min(c.sizes[k], c.kinds[k].Count-n*c.sizes[k])})
		at -= step
	}
	slices.Reverse(list)
	return list
}
