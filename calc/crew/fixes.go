package crew

import "garlandry/calc/order"

// Fix is levers that together bring the odds to what is asked for, or nearest.
type Fix struct {
	Levers   []string // keys, in the order given
	Cost     Cost
	Price    float64
	Reaches  bool
	Schedule Schedule
	Forecast Forecast
}

// FixOptions say what is asked for and how long to look.
type FixOptions struct {
	Options
	Target  float64 // odds of being done by the doors; 0 means 0.9
	Most    int     // levers at once; 0 means 3
	Tries   int     // combinations to plan; 0 means 60
	Answers int     // fixes to give; 0 means 3
}

func (o *FixOptions) fill() {
	set := func(at *int, value int) {
		if *at <= 0 {
			*at = value
		}
	}
	set(&o.Most, 3)
	set(&o.Tries, 60)
	set(&o.Answers, 3)
	set(&o.Schedules, 100)
	if o.Target <= 0 {
		o.Target = 0.9
	}
}

// Fixes tries combinations of levers from the cheapest up and gives those that reach
// the target, cheapest first. None holds all levers of a cheaper one. If none
// reaches it the one with the best odds comes alone. Levers that make a job that
// cannot be planned are passed over.
func Fixes(job Job, levers []Lever, o FixOptions) []Fix {
	o.fill()
	var reached []Fix
	var sets []uint64
	var nearest *Fix
	for tried, set := range combinations(levers, o.Most) {
		if tried >= o.Tries || len(reached) == o.Answers {
			break
		}
		if holdsOne(set, sets) {
			continue
		}
		fix := try(&job, levers, set, &o)
		if fix == nil {
			continue
		}
		if fix.Reaches {
			reached, sets = append(reached, *fix), append(sets, set)
		} else if nearest == nil || fix.Forecast.better(&nearest.Forecast) {
			nearest = fix
		}
	}
	if len(reached) == 0 && nearest != nil {
		return []Fix{*nearest}
	}
	return reached
}

func holdsOne(set uint64, sets []uint64) bool {
	for _, smaller := range sets {
		if set&smaller == smaller {
			return true
		}
	}
	return false
}

// try plans the job with a set of levers; nil if it cannot be planned.
func try(job *Job, levers []Lever, set uint64, o *FixOptions) *Fix {
	fix := new(Fix)
	changed := *job
	for i := range levers {
		if set>>i&1 == 0 {
			continue
		}
		lever := &levers[i]
		changed = lever.Apply(changed)
		fix.Levers = append(fix.Levers, lever.Key)
		fix.Price += lever.Price
		fix.Cost.Minutes += lever.Cost.Minutes
		fix.Cost.Cents += lever.Cost.Cents
		fix.Cost.Look += lever.Cost.Look
	}
	plan, forecast, err := settle(&changed, &o.Options)
	if err != nil {
		return nil
	}
	fix.Schedule, fix.Forecast = *plan, *forecast
	fix.Reaches = forecast.Done >= o.Target
	return fix
}

// maxLevers is how many levers are looked at, the first ones.
const maxLevers = 24

// combination is a set of levers.
type combination struct {
	set   uint64
	price float64
	size  int
}

// combinations are the sets of one to most levers, cheapest first; of equal ones the
// smaller, then those with earlier levers.
func combinations(levers []Lever, most int) []uint64 {
	levers = levers[:min(len(levers), maxLevers)]
	all := combine(nil, levers, 0, most, combination{})
	order.By(all, func(i, j int) bool {
		a, b := &all[i], &all[j]
		if a.price != b.price {
			return a.price < b.price
		}
		return a.size < b.size
	})
	sets := make([]uint64, len(all))
	for i := range all {
		sets[i] = all[i].set
	}
	return sets
}

// combine adds the sets that hold one and levers from a number on, each before those
// that hold it.
func combine(all []combination, levers []Lever, from, most int, held combination) []combination {
	for i := from; i < len(levers) && held.size < most; i++ {
		next := combination{held.set | 1<<i, held.price + max(0, levers[i].Price), held.size + 1}
		all = combine(append(all, next), levers, i+1, most, next)
	}
	return all
}
