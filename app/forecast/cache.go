package forecast

import (
	"math"
	"strconv"

	"garlandry/app/plan"
	"garlandry/app/plan/phrase"

	"garlandry/app/job"
	"garlandry/calc/cache"
	"garlandry/calc/crew"
)

// Cache holds the forecasts of the jobs used last: the plan made before goes on being used as far as it still fits.
// The zero Cache answers quickly; its methods may be called from many goroutines.
type Cache struct {
	// AtOnce: there is time enough to work everything out before it is answered.
	AtOnce bool
	// Later takes what is to be worked out while nobody waits for it, by a key that differs when the work does: then a tap
	// waits for no more than a quick plan, and the page is to be asked for again once the work is done. The pause that
	// work is handed is called every few milliseconds and need not come back. Nil: nothing is worked out later.
	Later func(key string, work func(pause func()))

	answers cache.Cache[string, cached]
}

// cached is the forecast that a page was answered with last.
type cached struct {
	fingerprint uint64
	forecast    *Forecast
	rough       bool      // of the quick budget
	settled     *Forecast // the last that was not, of the job as it was then
	before      *Forecast // what people heard before the job changed; nil: nothing
	advice      *Advice   // worked out last; nil: none was
}

// Forecast gives the clock of a job at a local time, in minutes since the beginning of 1970, that is so many minutes ahead
// of UTC: with AtOnce as [Usual], else at first as [Quick], and as [Usual] when it was worked out later; where only
// work was done since it is meanwhile the one of before. Spot tells apart what is tried out from what holds. Until
// something changes that matters, by [crew.Matters], the sentence stays as it was.
func (c *Cache) Forecast(j job.Job, p *plan.Plan, now, ahead int64, spot string) *Forecast {
	return c.answer(&j, p, now, ahead, spot, false)
}

// Soon is the clock for a page that only mentions it. Where it is worked out later it is meanwhile the one of before.
func (c *Cache) Soon(j job.Job, p *plan.Plan, now, ahead int64) *Forecast {
	return c.answer(&j, p, now, ahead, "", true)
}

func (c *Cache) answer(j *job.Job, p *plan.Plan, now, ahead int64, spot string, lags bool) *Forecast {
	f := prepare(j, p, now, ahead)
	if f.Sentence != "" {
		return f
	}
	id, old := j.ID, c.last(j.ID+spot)
	same := old.forecast != nil && old.fingerprint == f.fingerprint
	if same && !old.rough {
		return old.forecast
	}
	if c.Later != nil {
		set := *f
		c.Later(workKey(id+spot, f.fingerprint), func(pause func()) { c.settle(&set, p, id, spot, pause) })
	}
	if same || c.Later != nil && old.forecast != nil && (lags || spot == "" && f.onlyLess(old.forecast)) {
		return old.forecast
	}
	next := cached{fingerprint: f.fingerprint, forecast: f, rough: !c.AtOnce, settled: old.settled,
		before: old.forecast, advice: old.advice}
	b, from := Quick, old.forecast
	if c.AtOnce {
		b, from, next.settled = Usual, old.settled, f
	}
	f.plan(p, b, c.base(from, id, spot))
	f.Rough = c.Later != nil
	c.keep(id+spot, next, spot)
	return f
}

// settle works out a clock that is set, and was answered quickly or not at all.
func (c *Cache) settle(f *Forecast, p *plan.Plan, id, spot string, pause func()) {
	old := c.last(id + spot)
	next := cached{fingerprint: f.fingerprint, forecast: f, settled: f, before: old.forecast, advice: old.advice}
	if old.fingerprint == f.fingerprint {
		next.before = old.before
	}
	f.plan(p, Usual.with(pause), c.base(old.settled, id, spot))
	c.keep(id+spot, next, spot)
}

// base is the clock whose plan is kept if none is better: for what is tried out that of the job as it is.
func (c *Cache) base(old *Forecast, id, spot string) *Forecast {
	if spot != "" {
		return c.last(id).forecast
	}
	return old
}

// last returns what was answered last, the zero value if nothing was.
func (c *Cache) last(id string) cached {
	last, _ := c.answers.Get(id)
	return last
}

// keep notes what is answered, once it says how it differs from what people heard before.
func (c *Cache) keep(id string, next cached, spot string) {
	if f := next.forecast; spot == "" && next.before.Planned() && f.Planned() && next.before.Origin == f.Origin {
		f.since(next.before)
	} else {
		next.before = nil
	}
	c.answers.Put(id, next)
}

func workKey(id string, fingerprint uint64) string {
	return id + " " + strconv.FormatUint(fingerprint, 36)
}

// since keeps to all that was said before while nothing that matters has changed, and says by how much it has
// otherwise.
func (f *Forecast) since(was *Forecast) {
	before := crew.Forecast{Done: was.Odds, Half: was.Half, Ninety: was.Ninety}
	later := f.Ninety - was.Ninety
	switch {
	case f.Verdict == "past" || !crew.Matters(before, f.forecast) && f.Doors != was.Doors: // the sentence tells of what is left, and of the doors
	case !crew.Matters(before, f.forecast):
		f.Verdict, f.Sentence, f.Change, f.Odds, f.Musts, f.Half, f.Ninety = was.Verdict, was.Sentence, was.Change, was.Odds, was.Musts, was.Half, was.Ninety
	case later >= 5:
		f.Change = phrase.Count(later, "minute") + " later than it looked before."
	case later <= -5:
		f.Change = phrase.Count(-later, "minute") + " sooner than it looked before."
	default:
		f.Change = "It was " + Percent(was.Odds) + " before."
	}
}

// fingerprintOf returns a number that differs when anything does that the plan, or what is said of it, depends on.
func (f *Forecast) fingerprintOf(p *plan.Plan) uint64 {
	h := hasher(f.seed)
	job := &f.job
	h.numbers(int(f.Origin), job.Drive, job.Doors, job.Now, len(job.Tasks), len(job.People), len(job.Things),
		len(job.Rates))
	for i := range job.Tasks {
		t := &job.Tasks[i]
		h.texts(t.Key, t.Kind, t.Piece)
		h.floats(t.Minutes, t.Beginner, t.Crowding, t.Spread, t.Unsteady)
		h.numbers(t.Least, t.Most, int(t.Place), int(t.Priority), t.From, len(t.Before), len(t.Needs), len(t.Taken))
		h.flag(t.Splittable)
		h.texts(t.Before...)
		h.texts(t.Taken...)
		for k := range t.Needs {
			h.texts(t.Needs[k].Thing)
			h.numbers(t.Needs[k].Units, t.Needs[k].Serves)
		}
	}
	for i := range job.People {
		p := &job.People[i]
		h.texts(p.Key, f.People[i].Name)
		h.flag(p.Practised)
		h.intervals(p.Free)
		h.number(uint64(len(p.Only)))
		for _, place := range p.Only {
			h.number(uint64(place))
		}
	}
	for i := range job.Things {
		h.texts(job.Things[i].Key)
		h.number(uint64(job.Things[i].Count))
	}
	for i := range job.Rates {
		h.texts(job.Rates[i].Kind)
		h.floats(job.Rates[i].Factor, job.Rates[i].Spread)
	}
	for i := range job.Windows {
		h.intervals(job.Windows[i])
	}
	for i := range p.Cards {
		h.texts(p.Cards[i].Title, p.Cards[i].TakenBy)
	}
	return uint64(h)
}

// hasher is a hash, FNV-1a.
type hasher uint64

func (h *hasher) numbers(list ...int) {
	for _, x := range list {
		h.number(uint64(x))
	}
}

func (h *hasher) floats(list ...float64) {
	for _, x := range list {
		h.number(math.Float64bits(x))
	}
}

func (h *hasher) intervals(list []crew.Interval) {
	h.number(uint64(len(list)))
	for _, i := range list {
		h.numbers(i.From, i.To)
	}
}

func (h *hasher) flag(set bool) {
	if set {
		h.byte(1)
	}
	h.byte(0)
}

func (h *hasher) texts(list ...string) {
	for _, s := range list {
		h.text(s)
	}
}

func (h *hasher) text(s string) {
	for _, b := range []byte(s) {
		h.byte(b)
	}
	h.byte(0xff)
}

func (h *hasher) number(x uint64) {
	for range 8 {
		h.byte(byte(x))
		x >>= 8
	}
}

func (h *hasher) byte(b byte) { *h = (*h ^ hasher(b)) * 1099511628211 }
