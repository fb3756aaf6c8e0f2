package crew

import "cmp"

// Options say how long to search.
type Options struct {
	Seed      uint64
	Schedules int        // to generate; 0 means 500
	Runs      int        // to simulate; 0 means Runs
	Keep      []Schedule // older plans, kept if they still fit and their odds are best
	Like      *Schedule  // an older plan, perhaps of another job, to begin with; nil: none
	Smaller   int        // jobs with fewer people or things to plan first, see Settle; 0: none
	also      *Schedule  // see newSearch
	elite     int        // plans to simulate; 0 means elite
	Pause     func()     // called every few milliseconds of work; it changes no answer and need not return; nil: no pauses
}

// Settle searches for a plan and returns the one with the best odds, among those of the search and the older plans
// carried over to the job. So with more hands, a longer window or less work the odds are never worse than those of a
// kept plan.
//
// With o.Smaller it first plans the job with one person or one thing fewer, and so on for so many jobs, and keeps their
// plans in the same way. So one more person, pump, ladder or car makes neither the odds nor the end worse, even if the
// plan of the smaller job is not known: the search alone may be less lucky with more to choose from.
func Settle(job Job, o Options) (Schedule, Forecast, error) {
	s, f, err := settle(&job, &o)
	if err != nil {
		return Schedule{}, Forecast{}, err
	}
	return *s, *f, nil
}

func settle(job *Job, o *Options) (*Schedule, *Forecast, error) {
	if o.Smaller > 0 {
		return newSteps(o).settle(job)
	}
	best, err := findPlan(job, o, newDraws(o.Seed+1))
	if err != nil {
		return nil, nil, err
	}
	best, forecast := o.keep(job, best)
	return best, forecast, nil
}

// findPlan returns the plan with the best odds that a search finds. It compares them with draws of its own.
func findPlan(job *Job, o *Options, drawn *draws) (*Schedule, error) {
	schedules := o.Schedules
	if schedules <= 0 {
		schedules = usualSchedules
	}
	search, err := newSearch(job, o.Seed, schedules, o.Like, o.also)
	if err != nil {
		return nil, err
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
		best = search.surest(best, drawn, min(cmp.Or(o.elite, elite), runs/eliteRuns), o.Pause)
	}
	return best, nil
}

// usualSchedules is the number of schedules to generate unless the options say otherwise.
const usualSchedules = 500

// keep returns the best of a plan and the older ones, with its odds.
func (o *Options) keep(job *Job, best *Schedule) (*Schedule, *Forecast) {
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
	return best, forecast
}

// muchDearer is how much more than the best another plan may cost: as much as an hour's delay on site. The odds do not
// show when the take-down is done. From memory, no source.
const muchDearer = 60 * 64

// Limits: how many plans are simulated at most, so that they take no longer than the odds of the chosen one; how often;
// and by how much the odds of a plan must be better than those of the cheapest.
const (
	elite     = 10
	eliteRuns = 200
	leastGain = 0.01
)

// surest returns the plan with the best odds, of the musts first, among the search's survivors and its former best
// plans. It simulates the very first plan, which still has slack, and then the cheapest ones. Its random numbers differ
// from those of the final odds. The search cannot be used afterwards.
func (s *search) surest(best *Schedule, drawn *draws, most int, pause func()) *Schedule {
	if most < 2 {
		return best
	}
	d := s.decoder
	left := append(d.steps, s.genetic.Left()...)
	left[0].Cost = d.least
	odds, certain := best.surety(nil, drawn, eliteRuns, pause), surety{1, 1, 1}
	for simulated := 1; simulated < most && len(left) > 0 && certain.better(odds); {
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
		simulated++
		d.best = append(d.best[:0], d.spells...)
		copy(d.bestAt[0], d.starts)
		copy(d.bestAt[1], d.ends)
		other := d.schedule(best.Proven, best.Tried)
		other.network.genes = plan.Genes
		if then := other.surety(odds, drawn, eliteRuns, pause); then.better(odds) {
			best, odds = other, then
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

// better compares odds by [surety.better], then those of all however little they differ unless they are hopeless, then
// the time of nine in ten, then that of half.
func (f *Forecast) better(than *Forecast) bool {
	a, b := surety{f.Musts, f.Shoulds, f.Done}, surety{than.Musts, than.Shoulds, than.Done}
	switch {
	case a.better(&b):
		return true
	case b.better(&a):
		return false
	}
	return cmp.Or(cmp.Compare(hopeful(than.Done), hopeful(f.Done)), cmp.Compare(f.Ninety, than.Ninety),
		cmp.Compare(f.Half, than.Half)) < 0
}

// tenPoints is ten points minus the rounding error of floating-point odds.
const tenPoints = 0.1 - 1e-9

// Matters reports whether a new forecast is worth announcing: either time moved by five minutes or more, or the odds by
// ten points or more, since the last announcement.
func Matters(said, now Forecast) bool {
	moved := func(a, b, by float64) bool { return a-b >= by || b-a >= by }
	return moved(float64(said.Half), float64(now.Half), 5) || moved(float64(said.Ninety), float64(now.Ninety), 5) ||
		moved(said.Done, now.Done, tenPoints)
}
