package crew

import (
	"math"

	"garlandry/calc/exact"
)

// Seen is the measured time of a task or a part of it.
type Seen struct {
	Kind      string
	Practised bool    // skill that it was measured for, for Compare
	Planned   float64 // person-minutes by the table for this work
	Actual    float64 // person-minutes that it took
	Spread    float64 // standard deviation of the logarithm for that much work
}

// Furthest is how many times longer or shorter than planned a measurement counts, and how far a learnt rate goes. From
// memory, no source: beyond it a wrong time is more likely than a fast or a slow hand.
const Furthest = 3

// within limits a ratio of times to [Furthest].
func within(ratio float64) float64 { return min(max(ratio, 1.0/Furthest), Furthest) }

// leastSpread keeps a single time with a tiny spread from deciding everything.
const leastSpread = 0.05

// Learn updates rates by measured times. The logarithms are normal with known spread, so the new rate is the mean of
// prior and measurements, weighted by precision (the conjugate update of a normal mean, as in every textbook). More
// measurements pull a rate further. No measurement and no learnt rate goes beyond [Furthest]. A certain rate (Spread 0)
// and kinds without measurements stay unchanged. Measurements of kinds without a rate and rows whose minutes are not
// positive are ignored.
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
	// The factors have mean 1, so the logarithms' means are half a variance below 0.
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
		sum += float64(weight * (exact.Log(within(s.Actual/s.Planned)) + variance/2))
		count++
	}
	if count > 0 {
		r.Factor, r.Spread = within(exact.Exp(sum/precision+0.5/precision)), math.Sqrt(1/precision)
	}
}

// Comparison compares planned and actual time for a kind of work and a skill.
type Comparison struct {
	Kind            string
	Practised       bool
	Planned, Actual float64 // person-minutes
	Times           int     // number of measurements
	Rate            Rate    // the updated rate
	Strays          float64 // observed spread divided by the expected one, shrunk towards 1
}

// assumedTimes is the number of measurements that the given spreads count for. From memory, no source.
const assumedTimes = 6

// strays returns how many times wider than expected the times of one kind and skill are spread. For their variance
// about their own mean it uses the scaled inverse chi-squared distribution, conjugate to a normal of unknown mean
// (Gelman and others, Bayesian Data Analysis, section 3.3, from memory), at its scale.
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

// Compare summarises the measurements, one row for each kind and skill in the order of their first measurement. Kinds
// without a rate get a prior spread of 0.3: from memory, no source.
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
