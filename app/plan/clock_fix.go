package plan

import (
	"sort"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/crew"
)

// Fix is one or several levers that together help, with what the clock says of the job once they are pulled.
type Fix struct {
	Key     string // those of its levers, with a plus between
	Levers  []Lever
	Clock   *Clock // after it
	Reaches bool   // 9 in 10
	price   float64
}

// Target is the odds that fixes are to bring.
const Target = 0.9

// fixBudget is for a combination that is tried, and then for one that is offered.
var fixBudget = [...]Budget{{16, 120}, {80, 500}}

const (
	mostTried = 24 // combinations
	mostFixes = 6
	margin    = 0.04 // in odds, for what few runs get wrong
	leastGain = 0.05 // in odds, for a change to be offered at all
)

// Fixes gives combinations of changes that bring the odds to nine in ten, cheapest first, and then single changes that
// help. Each was worked out anew from the job as it would be. None where there is no job to plan, or nothing helps.
func (c *Clock) Fixes(j job.Job, p *Plan, now int64) []Fix {
	if !c.Helpable() {
		return nil
	}
	levers := c.levers(&j, p)
	sort.SliceStable(levers, func(a, b int) bool { return levers[a].lever.Price < levers[b].lever.Price })
	bare := make([]crew.Lever, len(levers))
	for i := range levers {
		bare[i] = levers[i].lever
	}
	o := crew.FixOptions{Options: crew.Options{Seed: c.seed, Schedules: fixBudget[0].Schedules, Runs: fixBudget[0].Runs}, Target: Target + margin, Tries: mostTried, Answers: 2}
	if c.Planned() {
		o.Keep = []crew.Schedule{c.schedule}
	}
	var found []Fix
	for _, f := range crew.Fixes(c.job, bare, o) {
		found = c.offer(found, &j, p, now, pulled(levers, f.Levers))
	}
	for _, i := range c.bestOfKinds(levers) {
		if len(found) < mostFixes {
			found = c.offer(found, &j, p, now, levers[i:i+1])
		}
	}
	found = withoutNeedless(found)
	sort.SliceStable(found, func(a, b int) bool {
		if found[a].Reaches != found[b].Reaches {
			return found[a].Reaches
		}
		return found[a].price < found[b].price
	})
	return found
}

// Helpable reports whether there is something left that could be changed.
func (c *Clock) Helpable() bool {
	return len(c.job.Tasks) > 0 && c.Verdict != "past" && c.Verdict != "done"
}

// withoutNeedless leaves out what does no better than a part of it.
func withoutNeedless(all []Fix) []Fix {
	var kept []Fix
	for i := range all {
		needed := true
		for k := range all {
			part := pulled(all[i].Levers, strings.Split(all[k].Key, "+"))
			if k != i && len(part) == len(all[k].Levers) && all[k].Clock.Odds >= all[i].Clock.Odds {
				needed = false
			}
		}
		if needed {
			kept = append(kept, all[i])
		}
	}
	return kept
}

// bestOfKinds is the lever of each kind that seems to help most, cheapest kinds first.
func (c *Clock) bestOfKinds(levers []Lever) []int {
	var best []int
	odds := make([]float64, len(levers))
	for i := range levers {
		_, f, err := crew.Settle(levers[i].lever.Apply(c.job), crew.Options{Seed: c.seed, Schedules: fixBudget[0].Schedules, Runs: fixBudget[0].Runs})
		if err != nil {
			continue
		}
		odds[i] = f.Done
		kind, at := kindOfLever(levers[i].Key), len(best)
		for k := range best {
			if kindOfLever(levers[best[k]].Key) == kind {
				at = k
			}
		}
		switch {
		case at == len(best):
			best = append(best, i)
		case odds[i] > odds[best[at]]+leastGain:
			best[at] = i
		}
	}
	return best
}

func kindOfLever(key string) string {
	kind, _, _ := strings.Cut(key, "/")
	return kind
}

// pulled picks levers by their keys.
func pulled(levers []Lever, keys []string) []Lever {
	var list []Lever
	for i := range levers {
		for _, key := range keys {
			if levers[i].Key == key {
				list = append(list, levers[i])
			}
		}
	}
	return list
}

// offer adds a fix to those found, unless it is among them, does not help, or the car does not take it.
func (c *Clock) offer(found []Fix, j *job.Job, p *Plan, now int64, levers []Lever) []Fix {
	if len(levers) == 0 {
		return found
	}
	f := Fix{Levers: levers}
	var keys []string
	for i := range levers {
		keys = append(keys, levers[i].Key)
		f.price += levers[i].lever.Price
	}
	f.Key = strings.Join(keys, "+")
	for i := range found {
		if found[i].Key == f.Key {
			return found
		}
	}
	then := job.Try(*j, f.Changes())
	after := Make(then)
	for i := range levers {
		for _, name := range after.stays {
			if levers[i].home && name == levers[i].piece {
				return found
			}
		}
	}
	f.Clock = NewClock(then, after, now, fixBudget[1], c)
	f.Reaches = f.Clock.Odds >= Target
	if f.Clock.Planned() && f.Clock.Odds >= c.Odds+leastGain {
		found = append(found, f)
	}
	return found
}

// Changes are what the fix writes into the job.
func (f *Fix) Changes() []job.Change {
	var all []job.Change
	for i := range f.Levers {
		all = append(all, f.Levers[i].Changes...)
	}
	return all
}

// FindFix gives the changes of the fix with the key, as the job stands; none if it makes no sense any more.
func (c *Clock) FindFix(j job.Job, p *Plan, key string) *Fix {
	f := Fix{Key: key, Levers: pulled(c.levers(&j, p), strings.Split(key, "+"))}
	if len(f.Levers) != strings.Count(key, "+")+1 {
		return nil
	}
	return &f
}
