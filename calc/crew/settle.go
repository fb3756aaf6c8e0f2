package crew

// Options say how long to look.
type Options struct {
	Seed      uint64
	Schedules int        // to generate; 0 means 500
	Runs      int        // to play; 0 means Runs
	Keep      []Schedule // older plans, kept if they still fit and their odds are best
	Like      *Schedule  // an older plan, perhaps of another job, to begin with; nil: none
	Pause     func()     // called every few milliseconds of work, changes no answer, need not come back; nil: nobody waits
}

// Settle looks for a plan and gives the one with the best odds: of the search, and
// of the older plans carried over to the job. So with more hands, a longer window or
// less work the odds are never worse than those of a plan that is kept.
func Settle(job Job, o Options) (Schedule, Forecast, error) {
	s, f, err := settle(&job, &o)
	if err != nil {
		return Schedule{}, Forecast{}, err
	}
	return *s, *f, nil
}

func settle(job *Job, o *Options) (*Schedule, *Forecast, error) {
	schedules := o.Schedules
	if schedules <= 0 {
		schedules = 500
	}
	search, err := newSearch(job, o.Seed, schedules, o.Like)
	if err != nil {
		return nil, nil, err
	}
	if search.genetic != nil {
		search.genetic.Pause(o.Pause)
	}
	best := search.improve(schedules)
	if len(job.Tasks) > 0 {
		runs := o.Runs
		if runs < 1 {
			runs = Runs
		}
		best = search.surest(best, o.Seed+1, min(elite, runs/eliteRuns), o.Pause)
	}
	forecast := best.odds(o.Seed, o.Runs, o.Pause)
	for i := range o.Keep {
		kept, err := o.Keep[i].carry(job)
		if err != nil {
			continue
		}
		if odds := kept.odds(o.Seed, o.Runs, o.Pause); odds.better(forecast) {
			best, forecast = kept, odds
		}
	}
	return best, forecast, nil
}

// muchDearer is by how much another plan may cost more than the best, as an end on site an
// hour later does: the odds do not tell when all is taken down. From memory, no source.
const muchDearer = 60 * 64

// How many plans are played at most, so that they take no longer than the odds of the one
// that is chosen, how often, and by how much the odds of one must be better
// than those of the cheapest, of all and of the musts together.
const (
	elite     = 10
	eliteRuns = 200
	leastGain = 0.01
)

// surest is the plan with the best odds, of all and of the musts together, among those that the search has kept and
// those that were its best once: the cheapest, and the very first, which nothing was squeezed out of. The numbers are
// drawn apart from those that its odds are told by. It uses the search up.
func (s *search) surest(best *Schedule, seed uint64, plays int, pause func()) *Schedule {
	if plays < 2 {
		return best
	}
	d := s.decoder
	left := append(d.steps, s.genetic.Left()...)
	left[0].Cost = d.least
	odds := best.odds(seed, eliteRuns, pause).both()
	for played := 1; played < plays && len(left) > 0 && odds < 2; {
		least := 0
		for i := range left {
			if left[i].Cost < left[least].Cost {
				least = i
			}
		}
		plan := left[least]
		left[least], left = left[0], left[1:]
		d.pass(0, plan.Start, plan.Genes)
		_, last := d.span()
		if d.cost(&last) > d.least+muchDearer || same(d.bestAt[0], d.starts) && same(d.bestAt[1], d.ends) {
			continue
		}
		played++
		d.best = append(d.best[:0], d.spells...)
		copy(d.bestAt[0], d.starts)
		copy(d.bestAt[1], d.ends)
		other := d.schedule(best.Proven, best.Tried)
		other.network.genes = plan.Genes
		if both := other.odds(seed, eliteRuns, pause).both(); both >= odds+leastGain {
			best, odds = other, both
		}
	}
	return best
}

func same(a, b []int) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// both is the odds of all and those of the musts together: neither is bought dearly with the other.
func (f *Forecast) both() float64 { return f.Done + f.Musts }

// better compares first the odds of all, then of the musts, then the nine in ten, then the half.
func (f *Forecast) better(than *Forecast) bool {
	if f.Done != than.Done {
		return f.Done > than.Done
	}
	if f.Musts != than.Musts {
		return f.Musts > than.Musts
	}
	if f.Ninety != than.Ninety {
		return f.Ninety < than.Ninety
	}
	return f.Half < than.Half
}

// tenPoints forgives what is lost when odds are written as floating-point numbers.
const tenPoints = 0.1 - 1e-9

// Matters tells whether a new forecast is worth saying: either time moved by five
// minutes or more, or the odds by ten points or more, from what was said last.
func Matters(said, now Forecast) bool {
	moved := func(a, b, by float64) bool { return a-b >= by || b-a >= by }
	return moved(float64(said.Half), float64(now.Half), 5) || moved(float64(said.Ninety), float64(now.Ninety), 5) ||
		moved(said.Done, now.Done, tenPoints)
}
