package plan

import (
	"math"
	"sync"

	"garlandry/app/job"
	"garlandry/calc/crew"
)

// Clocks keeps the clocks of the jobs last looked at: the plan made before goes on being used as far as it still fits,
// and gets better each time it is asked for. The zero Clocks is ready; its methods may be called from many goroutines.
type Clocks struct {
	AtOnce bool // there is time enough to answer with the budget that is wanted in the first place
	Lags   bool // a tap may not wait for it: see Soon
	mu     sync.Mutex
	kept   map[string]keptClock
	helps  map[string]*Help
	behind bool
}

// Help is what would help the crew of a job, and what to leave out first.
type Help struct {
	Fixes []Fix
	Cuts  []Cut
	mark  uint64
}

// Help works out what would help, once for as long as nothing changes that the plan depends on.
func (k *Clocks) Help(c *Clock, j job.Job, p *Plan, now int64) *Help {
	k.mu.Lock()
	kept := k.helps[j.ID]
	k.mu.Unlock()
	if kept != nil && kept.mark == c.mark {
		return kept
	}
	kept = &Help{c.Fixes(j, p, now), c.Cuts(p), c.mark}
	k.mu.Lock()
	if k.helps == nil || len(k.helps) >= mostKept {
		k.helps = map[string]*Help{}
	}
	k.helps[j.ID] = kept
	k.mu.Unlock()
	return kept
}

type keptClock struct {
	mark   uint64
	budget int
	clock  *Clock
	before *Clock // what people heard before the job changed; nil: nothing
}

// budgets are those that a clock goes through, by number. The last takes a slow phone about a second.
var budgets = [...]Budget{Quick, {120, 600}, Usual}

// MostBudget is the number of the last budget.
const MostBudget = 2

// Clock gives the clock of a job at a local time, in minutes since the beginning of 1970, that is so many minutes ahead of
// UTC. Want is the number of the budget that is enough, from 0; without AtOnce every call goes one further. Spot tells
// apart what is tried out from what holds. Until something changes that matters, by [crew.Matters], the sentence stays as it was.
func (k *Clocks) Clock(j job.Job, p *Plan, now, ahead int64, want int, spot string) *Clock {
	c := prepare(&j, p, now, ahead)
	if c.Sentence != "" {
		return c
	}
	return k.answer(&j, p, c, want, spot)
}

// Soon is the clock for a page that only mentions it: with AtOnce the same that the clock's own page shows. Where Lags
// says so it is the one of before, and [Clocks.Behind] then says that there is a better one to ask for.
func (k *Clocks) Soon(j job.Job, p *Plan, now, ahead int64) *Clock {
	c := prepare(&j, p, now, ahead)
	if c.Sentence != "" {
		return c
	}
	if k.Lags {
		k.mu.Lock()
		old := k.kept[j.ID]
		late := old.clock != nil && old.mark != c.mark
		k.behind = k.behind || late
		k.mu.Unlock()
		if late {
			return old.clock
		}
	}
	want := 0
	if k.AtOnce {
		want = MostBudget
	}
	return k.answer(&j, p, c, want, "")
}

func (k *Clocks) answer(j *job.Job, p *Plan, c *Clock, want int, spot string) *Clock {
	k.mu.Lock()
	old := k.kept[j.ID+spot]
	k.mu.Unlock()
	level, before := 0, old.clock
	if k.AtOnce {
		level = want
	}
	if old.clock != nil && old.mark == c.mark {
		if old.budget >= want {
			return old.clock
		}
		level, before = max(level, old.budget+1), old.before
	}
	c.plan(p, budgets[level], old.clock)
	if before.Planned() && c.Planned() && before.Origin == c.Origin {
		c.since(before)
	} else {
		before = nil
	}
	k.mu.Lock()
	if k.kept == nil || len(k.kept) >= mostKept {
		k.kept = map[string]keptClock{}
	}
	k.kept[j.ID+spot] = keptClock{c.mark, level, c, before}
	k.behind = k.behind || level < want
	k.mu.Unlock()
	return c
}

// Behind reports whether a clock was answered with less than was wanted since it was last asked: ask for it again then.
func (k *Clocks) Behind() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	behind := k.behind
	k.behind = false
	return behind
}

// since keeps to all that was said before while nothing that matters has changed, and says by how much it has otherwise.
func (c *Clock) since(was *Clock) {
	said := crew.Forecast{Done: was.Odds, Half: was.Half, Ninety: was.Ninety}
	later := c.Ninety - was.Ninety
	switch {
	case c.Verdict == "past" || !crew.Matters(said, c.forecast) && c.Doors != was.Doors: // the sentence tells of what is left, and of the doors
	case !crew.Matters(said, c.forecast):
		c.Verdict, c.Sentence, c.Change, c.Odds, c.Musts, c.Half, c.Ninety = was.Verdict, was.Sentence, was.Change, was.Odds, was.Musts, was.Half, was.Ninety
	case later >= 5:
		c.Change = count(later, "minute") + " later than it looked before."
	case later <= -5:
		c.Change = count(-later, "minute") + " sooner than it looked before."
	default:
		c.Change = "Before, the odds were " + Tenths(was.Odds) + "."
	}
}

// marks is a number that differs when anything does that the plan, or what is said of it, depends on.
func (c *Clock) marks(p *Plan) uint64 {
	h := marker(c.seed)
	job := &c.job
	h.numbers(int(c.Origin), job.Drive, job.Doors, job.Now, len(job.Tasks), len(job.People), len(job.Things), len(job.Rates))
	for i := range job.Tasks {
		t := &job.Tasks[i]
		h.texts(t.Key, t.Kind, t.Piece)
		h.floats(t.Minutes, t.Beginner, t.Crowding, t.Spread)
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
		h.texts(p.Key, c.People[i].Name)
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

// marker is a hash, FNV-1a.
type marker uint64

func (h *marker) numbers(list ...int) {
	for _, x := range list {
		h.number(uint64(x))
	}
}

func (h *marker) floats(list ...float64) {
	for _, x := range list {
		h.number(math.Float64bits(x))
	}
}

func (h *marker) intervals(list []crew.Interval) {
	h.number(uint64(len(list)))
	for _, i := range list {
		h.numbers(i.From, i.To)
	}
}

func (h *marker) flag(set bool) {
	if set {
		h.byte(1)
	}
	h.byte(0)
}

func (h *marker) texts(list ...string) {
	for _, s := range list {
		h.text(s)
	}
}

func (h *marker) text(s string) {
	for _, b := range []byte(s) {
		h.byte(b)
	}
	h.byte(0xff)
}

func (h *marker) number(x uint64) {
	for range 8 {
		h.byte(byte(x))
		x >>= 8
	}
}

func (h *marker) byte(b byte) { *h = (*h ^ marker(b)) * 1099511628211 }
