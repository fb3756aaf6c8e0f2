package crew

import (
	"math"

	"garlandry/calc/exact"
)

// Seen is how long a task, or a part of it, really took.
type Seen struct {
	Kind      string
	Practised bool    // whose rate it tells of, for Compare
	Planned   float64 // person-minutes by the table, for what was done
	Actual    float64 // person-minutes it took
	Spread    float64 // standard deviation of the logarithm for that much work
}

// leastSpread keeps one exact-looking time from deciding everything.
const leastSpread = 0.05

// Learn brings what was seen to the rates believed before: the logarithms are
// normal with known spread, so the new belief is their mean weighted by precision
// (the conjugate update of a normal mean, as in every textbook). A rate is pulled
// towards what was seen the more of it there was; one that is certain (Spread 0)
// stays, kinds not seen stay, kinds without a rate are left out. Rows whose minutes
// are not positive are passed over.
func Learn(rates []Rate, seen []Seen) []Rate {
	learnt := append([]Rate(nil), rates...)
	for i := range learnt {
		learnt[i].learn(seen)
	}
	return learnt
}

func (r *Rate) learn(seen []Seen) {
	if r.Factor == 0 {
		r.Factor = 1
	}
	if !(r.Spread > 0) {
		return
	}
	// Means are 1, so the logarithms' means lie half a variance below.
	variance := float64(r.Spread * r.Spread)
	precision := 1 / variance
	sum := float64(precision * (exact.Log(r.Factor) - variance/2))
	count := 0
	for i := range seen {
		s := &seen[i]
		if s.Kind != r.Kind || !(s.Planned > 0) || !(s.Actual > 0) {
			continue
		}
		spread := max(leastSpread, s.Spread)
		variance = float64(spread * spread)
		weight := 1 / variance
		precision += weight
		sum += float64(weight * (exact.Log(s.Actual/s.Planned) + variance/2))
		count++
	}
	if count > 0 {
		r.Factor, r.Spread = exact.Exp(sum/precision+0.5/precision), math.Sqrt(1/precision)
	}
}

// Comparison is planned against actual for a kind of work in one kind of hands.
type Comparison struct {
	Kind            string
	Practised       bool
	Planned, Actual float64 // person-minutes
	Times           int     // how often it was seen
	Rate            Rate    // the belief after it, shrunk towards the one before
	Strays          float64 // times as widely as the spreads of what was seen say, shrunk towards 1
}

// assumedTimes is how many times seen the spreads that are told count for. From memory,
// no source.
const assumedTimes = 6

// strays is how many times as widely as told the times of one kind and skill lie: of their
// variance about their own mean the scaled inverse chi-squared belief, conjugate to a
// normal of unknown mean (Gelman and others, Bayesian Data Analysis, section 3.3, from
// memory), taken at its scale.
func strays(seen []Seen) float64 {
	weights, sum, squares := 0.0, 0.0, 0.0
	for i := range seen {
		s := &seen[i]
		weight := 1 / float64(s.Spread*s.Spread)
		at := exact.Log(s.Actual/s.Planned) + float64(s.Spread*s.Spread)/2
		weights += weight
		sum += float64(weight * at)
		squares += float64(weight * float64(at*at))
	}
	about := max(0, squares-float64(sum*sum)/weights)
	return math.Sqrt((assumedTimes + about) / float64(assumedTimes+len(seen)-1))
}

// Compare puts together what was seen, one row for each kind and skill in the order
// they were first seen. Kinds without a rate are taken to be known to a spread of
// 0.3 before: from memory, no source.
func Compare(rates []Rate, seen []Seen) []Comparison {
	var rows []Comparison
	for _, s := range seen {
		if !(s.Planned > 0) || !(s.Actual > 0) {
			continue
		}
		at := -1
		for i, row := range rows {
			if row.Kind == s.Kind && row.Practised == s.Practised {
				at = i
			}
		}
		if at < 0 {
			at = len(rows)
			rows = append(rows, Comparison{Kind: s.Kind, Practised: s.Practised})
		}
		rows[at].Planned += s.Planned
		rows[at].Actual += s.Actual
		rows[at].Times++
	}
	for i := range rows {
		before := Rate{Kind: rows[i].Kind, Factor: 1, Spread: 0.3}
		for _, rate := range rates {
			if rate.Kind == before.Kind {
				before = rate
			}
		}
		var mine []Seen
		for _, s := range seen {
			if s.Practised == rows[i].Practised && s.Kind == before.Kind && s.Planned > 0 && s.Actual > 0 {
				s.Spread = max(leastSpread, s.Spread)
				mine = append(mine, s)
			}
		}
		before.learn(mine)
		rows[i].Rate, rows[i].Strays = before, strays(mine)
	}
	return rows
}
