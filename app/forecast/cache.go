package forecast

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cache"
	"garlandry/calc/crew"
)

// Cache holds the forecasts of the jobs used last, so that a new forecast starts with the plan before it. The zero
// Cache answers quickly; its methods are safe for concurrent use.
type Cache struct {
	// AtOnce answers with the usual budget instead of a quick plan.
	AtOnce bool
	// Later, if set, runs work in the background. Different work has a different key. A tap then waits for a quick plan
	// only, and the page should be requested again when the work is done. Work calls pause every few milliseconds;
	// pause need not return.
	Later func(key string, work func(pause func()))

	answers cache.Cache[string, cached]
}

// cached is the last answer for a job.
type cached struct {
	fingerprint uint64
	forecast    *Forecast
	budget      *Budget   // that it was made with: Quick, Fair or Usual
	settled     *Forecast // the last one made with the usual budget
	before      *Forecast // what people saw before the job changed; nil: nothing
	advice      *Advice   // the last one; nil: none yet
}

// Forecast returns the forecast of a job. Now is in local minutes since 1970, ahead of UTC by ahead minutes. With
// AtOnce it has the [Usual] budget, else at first [Quick], then [Fair]. If only work was done since, it is the forecast
// before until the better one is ready. A spot other than "" is for what is only tried out. The sentence stays until
// something changes that matters by [crew.Matters].
func (c *Cache) Forecast(j job.Job, p *plan.Plan, now, ahead int64, spot string) *Forecast {
	return c.answer(&j, p, now, ahead, spot, false)
}

// Soon returns the forecast for a page that only mentions it: the one before until a better one is ready.
func (c *Cache) Soon(j job.Job, p *plan.Plan, now, ahead int64) *Forecast {
	return c.answer(&j, p, now, ahead, "", true)
}

// Prepare works out the first forecast of a job in the background, for a page from which people go on to the clock.
func (c *Cache) Prepare(j job.Job, p *plan.Plan, now, ahead int64) {
	if c.Later == nil || c.last(j.ID).forecast != nil {
		return
	}
	if f := prepare(&j, p, now, ahead); f.Sentence == "" {
		c.plan(f, p, j.ID, "", &Fair)
	}
}

func (c *Cache) answer(j *job.Job, p *plan.Plan, now, ahead int64, spot string, lags bool) *Forecast {
	f := prepare(j, p, now, ahead)
	if f.Sentence != "" {
		return f
	}
	id, old := j.ID, c.last(j.ID+spot)
	same := old.forecast != nil && old.fingerprint == f.fingerprint
	if same && old.budget == &Usual {
		return old.forecast
	}
	if c.Later != nil {
		set, b := *f, &Usual
		if old.settled == nil && !(same && old.budget == &Fair) {
			b = &Fair
		}
		c.plan(&set, p, id, spot, b)
	}
	if same || c.Later != nil && old.forecast != nil && (lags || spot == "" && f.onlyLess(old.forecast)) {
		return old.forecast
	}
	next := cached{fingerprint: f.fingerprint, forecast: f, budget: &Quick, settled: old.settled,
		before: old.forecast, advice: old.advice}
	from := old.forecast
	if c.AtOnce {
		next.budget, from, next.settled = &Usual, old.settled, f
	}
	f.plan(p, *next.budget, c.base(from, id, spot))
	f.Rough = c.Later != nil
	c.keep(id+spot, next, spot)
	return f
}

// plan has a prepared forecast planned in the background and stored.
func (c *Cache) plan(f *Forecast, p *plan.Plan, id, spot string, b *Budget) {
	key := workKey(id+spot, f.fingerprint)
	if b == &Fair {
		key = "first " + key
	}
	c.Later(key, func(pause func()) {
		old := c.last(id + spot)
		next := cached{fingerprint: f.fingerprint, forecast: f, budget: b, settled: old.settled, before: old.forecast,
			advice: old.advice}
		if b == &Usual {
			next.settled = f
		}
		if old.fingerprint == f.fingerprint {
			next.before = old.before
		}
		f.plan(p, b.with(pause), c.base(old.settled, id, spot))
		c.keep(id+spot, next, spot)
	})
}

// base returns the forecast whose plan stays if none is better: for a try, that of the job as it is.
func (c *Cache) base(old *Forecast, id, spot string) *Forecast {
	if spot != "" {
		return c.last(id).forecast
	}
	return old
}

// last returns the last answer, the zero value if there is none.
func (c *Cache) last(id string) cached {
	last, _ := c.answers.Get(id)
	return last
}

// keep stores an answer, after saying how it differs from the one before.
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

// since keeps the sentence and figures of the forecast before if nothing that matters changed. Otherwise it says what
// changed.
func (f *Forecast) since(was *Forecast) {
	before := crew.Forecast{Done: was.Odds, Half: was.Half, Ninety: was.Ninety}
	later := f.Ninety - was.Ninety
	switch {
	case f.Verdict == "past" || !crew.Matters(before, f.forecast) && f.Doors != was.Doors ||
		f.Without() != was.Without():
		// the sentence names the cards left, those that nobody can do or the doors, so it is new
	case !crew.Matters(before, f.forecast):
		f.Verdict, f.Sentence, f.Change = was.Verdict, was.Sentence, was.Change
		f.Odds, f.Musts, f.Half, f.Ninety = was.Odds, was.Musts, was.Half, was.Ninety
	case later >= 5:
		f.Change = phrase.Count(later, "minute") + " later than before."
	case later <= -5:
		f.Change = phrase.Count(-later, "minute") + " sooner than before."
	default:
		f.Change = Percent(was.Odds) + " before."
	}
}

// fingerprintOf hashes everything that the plan and its texts depend on.
func (f *Forecast) fingerprintOf(p *plan.Plan) uint64 {
	var h hasher
	h.number(f.seed)
	h.texts(f.Without())
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
		h.number(uint64(len(t.By)))
		h.texts(t.By...)
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
	return h.sum()
}

// hasher collects the fields of a forecast and hashes them by FNV-1a.
type hasher struct{ fields []byte }

func (h *hasher) sum() uint64 {
	hash := fnv.New64a()
	hash.Write(h.fields)
	return hash.Sum64()
}

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
		h.fields = append(h.fields, 1)
	}
	h.fields = append(h.fields, 0)
}

// texts ends each text with a byte that UTF-8 never contains.
func (h *hasher) texts(list ...string) {
	for _, s := range list {
		h.fields = append(append(h.fields, s...), 0xff)
	}
}

func (h *hasher) number(x uint64) { h.fields = binary.LittleEndian.AppendUint64(h.fields, x) }
