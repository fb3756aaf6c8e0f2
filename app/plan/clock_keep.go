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
	behind bool
}

type keptClock struct {
	mark   uint64
	budget int
	clock  *Clock
	said   crew.Forecast // what people last heard
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

// Soon is the clock for a page that only mentions it. Where Lags says so it is the one of before, and [Clocks.Behind]
// then says that there is a better one to ask for.
func (k *Clocks) Soon(j job.Job, p *Plan, now, ahead int64) *Clock {
	c := prepare(&j, p, now, ahead)
	if c.Sentence != "" {
		return c
	}
	if k.Lags {
		k.mu.Lock()
		old := k.kept[j.ID]
		late := old.clock != nil && old.mark != c.mark()
		k.behind = k.behind || late
		k.mu.Unlock()
		if late {
			return old.clock
		}
	}
	return k.answer(&j, p, c, 0, "")
}

func (k *Clocks) answer(j *job.Job, p *Plan, c *Clock, want int, spot string) *Clock {
	k.mu.Lock()
	old := k.kept[j.ID+spot]
	k.mu.Unlock()
	mark, level := c.mark(), 0
	if k.AtOnce {
		level = want
	}
	if same := old.clock != nil && old.mark == mark; same {
		if old.budget >= want {
			return old.clock
		}
		level = max(level, old.budget+1)
		c.plan(p, budgets[level], old.clock)
		old.said = c.forecast
	} else {
		c.plan(p, budgets[level], old.clock)
		if old.clock.Planned() && c.Planned() && old.clock.Origin == c.Origin {
			c.since(&old)
		} else {
			old.said = c.forecast
		}
	}
	k.mu.Lock()
	if k.kept == nil || len(k.kept) >= mostKept {
		k.kept = map[string]keptClock{}
	}
	k.kept[j.ID+spot] = keptClock{mark, level, c, old.said}
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

// since keeps to what was said before while nothing that matters has changed, and says by how much it has otherwise.
func (c *Clock) since(old *keptClock) {
	if !crew.Matters(old.said, c.forecast) {
		if c.Verdict == old.clock.Verdict {
			c.Sentence, c.Change = old.clock.Sentence, old.clock.Change
		}
		return
	}
	was := old.said
	old.said = c.forecast
	switch later := c.Ninety - was.Ninety; {
	case later >= 5:
		c.Change = count(later, "minute") + " later than it looked before."
	case later <= -5:
		c.Change = count(-later, "minute") + " sooner than it looked before."
	default:
		c.Change = "Before, the odds were " + Tenths(was.Done) + "."
	}
}

// mark is a number that differs when anything does that a plan depends on.
func (c *Clock) mark() uint64 {
	h := marker(c.seed)
	job := &c.job
	h.numbers(job.Drive, job.Doors, job.Now, len(job.Tasks), len(job.People))
	for i := range job.Tasks {
		t := &job.Tasks[i]
		h.text(t.Key)
		h.floats(t.Minutes, t.Beginner, t.Crowding, t.Spread)
		h.numbers(t.Least, t.Most, int(t.Place), int(t.Priority), t.From, len(t.Needs))
		for _, key := range t.Before {
			h.text(key)
		}
	}
	for i := range job.People {
		p := &job.People[i]
		h.text(p.Key)
		h.text(c.People[i].Name)
		if p.Practised {
			h.numbers(1)
		}
		h.intervals(p.Free)
		h.numbers(len(p.Only))
	}
	for i := range job.Things {
		h.numbers(job.Things[i].Count)
	}
	for i := range job.Rates {
		h.floats(job.Rates[i].Factor, job.Rates[i].Spread)
	}
	for i := range job.Windows {
		h.intervals(job.Windows[i])
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
