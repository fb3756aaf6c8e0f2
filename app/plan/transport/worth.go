package transport

import (
	"math"
	"math/bits"
	"slices"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/cargo"
	"garlandry/calc/stable"
)

// The answers to the choice of [BringKey].
const (
	PickVenue   = "venue"
	PickBrought = "brought"
)

// BringKey returns the key of the choice whether a piece made at home is fetched in further loads.
func BringKey(piece string) string { return "bring/" + piece }

// BringOptions returns the answers to that choice. The first is the plan's.
func BringOptions() []count.Option {
	return []count.Option{{Value: PickVenue, Label: "Made at the venue"},
		{Value: PickBrought, Label: "Brought all the same"}}
}

// Limits on what is compared. They do not depend on the cars, so that a larger car never changes the method.
const (
	mostSubsets = 6  // pieces: every set of so many is compared
	mostWeighed = 60 // pieces: more are brought as they are meant to
)

// item is a piece made at home and the ways to have it at the venue.
type item struct {
	id          string
	rank        int
	airL        float64
	meant       []cargo.Kind // as it is meant to travel, nil if no car takes it so
	loose       []cargo.Kind // as loose clusters, nil if no car takes them or it travels in bags anyhow
	all, join   float64      // person-minutes to make it, and to join it alone, at the venue
	in, inLoose float64      // person-minutes to carry it in as it is meant to travel, and as loose clusters
	brought     bool         // the user wants it brought
	ahead       bool         // the user wants some of it made ahead, and the rest there
	sectioned   bool
}

// way says which items are made at the venue and which travel as loose clusters, one bit each, with the person-minutes
// that this takes at the venue.
type way struct {
	left, loose uint64
	minutes     float64
}

// weigher compares ways. Its estimate is the time of the further rounds of the cars, one after another, and the work
// that is left for the venue and the carrying in, shared by the hands there. Common practice, no source.
type weigher struct {
	items  []item
	litres []float64
	trip   float64 // minutes of a further round: there and back, and the table's loading and unloading
	hands  float64 // people at the venue
	kinds  []cargo.Kind
}

func (p *Plan) weigher(d *count.Draft) *weigher {
	w := &weigher{hands: float64(len(d.Site))}
	for i := range p.Cars {
		w.litres = append(w.litres, p.Cars[i].Litres)
	}
	slow, fast := d.Figures.Get("minutes/car/"+string(figures.Beginner)), d.Figures.Get("minutes/car/"+
		string(figures.Practised))
	w.trip = float64(2*p.Drive) + figures.MeanMinutes(d.Home, slow, fast) + figures.MeanMinutes(d.Site, slow, fast)
	wayIn := WayIn(d)
	for _, c := range d.Pieces {
		meant := c
		if c.Carried != count.AsMeant {
			meant = d.Carry(c, count.AsMeant)
		}
		if meant.AtHome() == 0 {
			continue
		}
		picked := d.Picked(BringKey(c.Piece.ID), BringOptions())
		it := item{id: c.Piece.ID, rank: rank(c.Piece.Priority), airL: filling(d, meant, 1).AirL,
			meant: p.kinds(d, meant), sectioned: meant.InSections(),
			brought: picked == PickBrought && !meant.OnSite, ahead: meant.OnSite}
		it.all, it.join = d.SiteMinutes(meant)
		it.in = wayIn.carryMinutes(d, meant)
		if it.sectioned {
			loose := d.Carry(c, count.InClusters)
			it.loose, it.inLoose = p.kinds(d, loose), wayIn.carryMinutes(d, loose)
		}
		w.items = append(w.items, it)
	}
	return w
}

// kinds lists what is to be carried of a piece, nil if no car takes some of it.
func (p *Plan) kinds(d *count.Draft, c *count.Counted) (kinds []cargo.Kind) {
	list := p.goodsOf(d, c)
	if p.refused(list) != nil {
		return nil
	}
	for i := range list {
		kinds = append(kinds, list[i].kind)
	}
	return kinds
}

// travels returns how an item is carried in the way with those bits: as meant, loose, or not at all because it is made
// at the venue, as is a piece that no car takes.
func (w *weigher) travels(i int, left, loose uint64) count.Carriage {
	it, bit := &w.items[i], uint64(1)<<i
	switch {
	case left&bit == 0 && it.meant != nil && loose&bit == 0:
		return count.AsMeant
	case left&bit == 0 && it.loose != nil:
		return count.InClusters
	}
	return count.NotCarried
}

// at returns the way with those bits.
func (w *weigher) at(left, loose uint64) way {
	to := way{left: left, loose: loose}
	for i := range w.items {
		it := &w.items[i]
		switch w.travels(i, left, loose) {
		case count.AsMeant:
			to.minutes += it.in
		case count.InClusters:
			to.minutes += it.inLoose + it.join
		case count.NotCarried:
			to.minutes += it.all
		}
	}
	return to
}

// carried lists what the cars carry in the way with those bits, until the next call.
func (w *weigher) carried(left, loose uint64) []cargo.Kind {
	w.kinds = w.kinds[:0]
	for i := range w.items {
		switch w.travels(i, left, loose) {
		case count.AsMeant:
			w.kinds = append(w.kinds, w.items[i].meant...)
		case count.InClusters:
			w.kinds = append(w.kinds, w.items[i].loose...)
		}
	}
	return w.kinds
}

// rounds returns in how many rounds a way brings what it brings, at least 1.
func (w *weigher) rounds(left, loose uint64) int {
	return max(1, cargo.Rounds(w.litres, w.carried(left, loose)))
}

// estimate returns the minutes of a way with so many rounds.
func (w *weigher) estimate(to way, rounds int) float64 {
	return float64(float64(rounds-1)*w.trip) + to.minutes/w.hands
}

// best returns the way with the least estimate, and the estimate: infinite if every way takes more than [MostLoads]. Of
// equal ones it is the way that makes the least at the venue. Which ways are compared depends on the pieces only. Each
// takes as many rounds or fewer with a larger car or one more, so the least estimate never grows with the cars.
func (w *weigher) best(obeys bool) (way, float64) {
	var ways []way
	for _, left := range w.leftOut(obeys) {
		for _, loose := range w.looseWays(left) {
			ways = append(ways, w.at(left, loose))
		}
	}
	stable.Sort(ways, func(a, b way) int {
		switch {
		case a.minutes < b.minutes:
			return -1
		case a.minutes > b.minutes:
			return 1
		}
		return bits.OnesCount64(a.left) - bits.OnesCount64(b.left)
	})
	found, least := way{}, math.Inf(1)
	for _, to := range ways {
		if to.minutes/w.hands >= least {
			break
		}
		kinds := w.carried(to.left, to.loose)
		if w.estimate(to, w.fewest(kinds)) >= least {
			continue
		}
		rounds := max(1, cargo.Rounds(w.litres, kinds))
		if cost := w.estimate(to, rounds); rounds <= MostLoads && cost < least {
			found, least = to, cost
		}
	}
	return found, least
}

// fewest returns how many rounds the litres alone take, at least 1.
func (w *weigher) fewest(kinds []cargo.Kind) int {
	fills := 0.0
	for i := range kinds {
		share := math.Inf(1)
		for car, each := range kinds[i].Each {
			if each > 0 {
				share = min(share, each/w.litres[car])
			}
		}
		fills += float64(share * float64(kinds[i].Count))
	}
	return max(1, int(math.Ceil(fills/float64(len(w.litres))-1e-6)))
}

// leftOut lists the sets of items that may be made at the venue: all sets of a few, else those that matter least and
// are made the most quickly for their size, and each alone. What is made ahead is in none, nor, if that is obeyed, what
// the user wants brought.
func (w *weigher) leftOut(obeys bool) []uint64 {
	var order []int
	for i := range w.items {
		if it := &w.items[i]; !it.ahead && !(obeys && it.brought) {
			order = append(order, i)
		}
	}
	sets := []uint64{0}
	if len(order) <= mostSubsets {
		for _, i := range order {
			for _, set := range sets[:len(sets):len(sets)] {
				sets = append(sets, set|1<<i)
			}
		}
		return sets
	}
	stable.Sort(order, func(a, b int) int {
		x, y := &w.items[a], &w.items[b]
		switch dense, other := float64(x.all*y.airL), float64(y.all*x.airL); {
		case x.rank != y.rank:
			return y.rank - x.rank
		case dense < other:
			return -1
		case dense > other:
			return 1
		}
		return 0
	})
	first := uint64(0)
	for n, i := range order {
		first |= 1 << i
		sets = append(sets, first)
		if n > 0 {
			sets = append(sets, 1<<i)
		}
	}
	return sets
}

// looseWays lists the sets of the other items in sections that may travel as loose clusters: none, all, each alone, and
// all but one.
func (w *weigher) looseWays(left uint64) []uint64 {
	all := uint64(0)
	for i := range w.items {
		if w.items[i].sectioned && left&(1<<i) == 0 {
			all |= 1 << i
		}
	}
	sets := []uint64{0}
	for rest := all; rest != 0; rest &= rest - 1 {
		one := rest & -rest
		sets = append(sets, one)
		if all&^one != 0 && all&^one&(all&^one-1) != 0 {
			sets = append(sets, all&^one)
		}
	}
	if all&(all-1) != 0 {
		sets = append(sets, all)
	}
	return sets
}

// weigh has pieces made or joined at the venue where that takes less time than the loads which it saves. The first load
// of a car never counts.
func (p *Plan) weigh(d *count.Draft) {
	w := p.weigher(d)
	if len(w.items) > mostWeighed {
		return
	}
	to, least := w.best(true)
	if math.IsInf(least, 1) {
		return // too many loads of what the user wants brought
	}
	free := to
	if slices.ContainsFunc(w.items, func(it item) bool { return it.brought }) {
		free, _ = w.best(false)
	}
	for i := range w.items {
		it, bit := &w.items[i], uint64(1)<<i
		k := slices.IndexFunc(d.Pieces, func(c *count.Counted) bool { return c.Piece.ID == it.id })
		c := d.Pieces[k]
		m := Moved{Piece: it.id, Name: c.Piece.Name, How: count.NotCarried, Saves: true}
		switch {
		case it.brought && free.left&bit != 0:
			m.How = c.Carried
			m.compare(w, i, free)
			p.Brought = append(p.Brought, m)
		case c.Carried == count.NotCarried:
		case to.left&bit != 0:
			m.compare(w, i, to)
			p.set(d, c, m)
		case to.loose&bit != 0 && c.Carried == count.AsMeant:
			m.How = count.InClusters
			p.set(d, c, m)
		}
	}
}

// compare notes how long the further rounds of a piece take that a way makes at the venue, with carrying it in, and how
// long it takes there.
func (m *Moved) compare(w *weigher, i int, to way) {
	it, left := &w.items[i], to.left&^(1<<i)
	m.Rounds = w.rounds(left, to.loose) - w.rounds(to.left, to.loose)
	m.Away, m.There = float64(float64(m.Rounds)*w.trip)+it.in, it.all/w.hands
	if w.travels(i, left, to.loose) == count.InClusters {
		m.Away += it.inLoose - it.in
	}
}
