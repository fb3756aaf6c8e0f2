package forecast

import (
	"cmp"
	"slices"
	"strings"

	"garlandry/app/plan"
	"garlandry/calc/stable"

	"garlandry/app/job"
)

// Fix is one or several mitigations that help together, with the forecast of the job after them.
type Fix struct {
	Key         string // the keys of its mitigations, joined with a plus
	Mitigations []*Mitigation
	Forecast    *Forecast // after the fix, with the [Usual] budget
	Reaches     bool      // the odds reach [Target]
	price       float64
}

// Target is the odds from which a plan is on time, and which fixes should reach.
const Target = 0.9

const (
	mostFixes    = 6
	leastGain    = 0.05 // in odds, for a fix to be offered
	leastNearer  = 30   // minutes earlier that a fix must end if the odds stay near 0
	leastSooner  = 3    // minutes earlier that a change must end to be considered
	spareMinutes = 2    // before the doors, for the error of few runs
)

// Fixes returns changes that reach [Target], cheapest first, then those that help without reaching it, best odds first.
// Each is planned like the job itself, with the same seed, so a press gives the odds that were offered. What lets
// somebody do a card that nobody can do comes before all of these. It returns nil if there is nothing to plan or
// nothing helps.
func (f *Forecast) Fixes(j job.Job, p *plan.Plan, now int64) []Fix { return f.fixes(&j, p, now, nil) }

func (f *Forecast) fixes(j *job.Job, p *plan.Plan, now int64, pause func()) []Fix {
	if !f.Helpable() {
		return nil
	}
	s := f.seek(j, p, now, pause)
	s.search()
	found := slices.DeleteFunc(withoutNeedless(s.found), func(fix Fix) bool {
		return len(fix.Mitigations) == 1 && fix.Mitigations[0].cure // these come first
	})
	stable.Sort(found, func(a, b Fix) int { return a.order(&b) })
	return append(s.cures(), found[:min(len(found), mostFixes)]...)
}

// order returns a negative number if a fix comes before another one. Of fixes that reach [Target] the cheapest is the
// best; of the others, the one with the best odds, then the earliest end, then the lowest price.
func (f *Fix) order(other *Fix) int {
	switch {
	case f.Reaches && !other.Reaches:
		return -1
	case !f.Reaches && other.Reaches:
		return 1
	case f.Reaches:
		return cmp.Compare(f.price, other.price)
	}
	return cmp.Or(cmp.Compare(other.Forecast.Odds, f.Forecast.Odds),
		cmp.Compare(f.Forecast.Ninety, other.Forecast.Ninety), cmp.Compare(f.price, other.price))
}

// Cures returns the changes that let somebody do the cards that nobody can do. Those for one card come last.
func (f *Forecast) Cures(j job.Job, p *plan.Plan) (cures []*Mitigation) {
	if len(f.Blocked) == 0 || !f.Helpable() {
		return nil
	}
	for _, one := range f.mitigations(&j, p).list {
		if one.cure {
			cures = append(cures, one)
		}
	}
	stable.Sort(cures, func(a, b *Mitigation) int { return cmp.Compare(a.forOneCard(), b.forOneCard()) })
	return cures
}

// forOneCard returns 1 for a change that lets one pair of hands do a card, 0 for any other.
func (m *Mitigation) forOneCard() int {
	if mitigationKind(m.Key) == "alone" {
		return 1
	}
	return 0
}

// cures plans each change that lets somebody do a card that nobody can do, and puts those first that leave the fewest
// such cards. They help however the odds of the rest move.
func (s *searcher) cures() (fixes []Fix) {
	for _, one := range s.list.list {
		if !one.cure {
			continue
		}
		fix := Fix{Key: one.Key, Mitigations: []*Mitigation{one}, price: one.price}
		fix.Forecast = s.forecast(&fix)
		if fix.Forecast.Planned() && len(fix.Forecast.Blocked) < len(s.before.Blocked) {
			fix.Reaches = fix.Forecast.reaches() && !fix.Forecast.MustBlocked()
			fixes = append(fixes, fix)
		}
	}
	stable.Sort(fixes, func(a, b Fix) int {
		return cmp.Compare(len(a.Forecast.Blocked), len(b.Forecast.Blocked))
	})
	return fixes[:min(len(fixes), mostFixes)]
}

// Helpable reports whether a change could still help.
func (f *Forecast) Helpable() bool {
	return len(f.job.Tasks)+len(f.Blocked) > 0 && f.Verdict != "past" && f.Verdict != "done"
}

// Wanting reports whether help is wanted and a change could still give it.
func (f *Forecast) Wanting() bool {
	return f.Planned() && f.Helpable() && (f.Odds < Target || len(f.Blocked) > 0)
}

// withoutNeedless drops fixes that another fix replaces.
func withoutNeedless(all []Fix) []Fix {
	var kept []Fix
	for i := range all {
		needed := true
		for k := range all {
			fewer := len(all[k].Mitigations) < len(all[i].Mitigations)
			needed = needed && !(!fewer && all[k].cheaper(&all[i])) &&
				!(fewer && (all[k].instead(&all[i]) || all[k].asGood(&all[i]) && matters(all[i].Mitigations, all[k].Mitigations)))
		}
		if needed {
			kept = append(kept, all[i])
		}
	}
	return kept
}

// asGood reports whether a fix has odds at least as good as another, and no later end if the odds are near 0.
func (f *Fix) asGood(as *Fix) bool {
	return f.Forecast.Odds >= as.Forecast.Odds && (!as.Forecast.hopeless() || f.Forecast.Ninety <= as.Forecast.Ninety)
}

// cheaper reports whether a fix makes a dearer one of the same matters needless, such as one with more clusters made at
// home.
func (f *Fix) cheaper(than *Fix) bool {
	return f.instead(than) && f.price < than.price && len(f.Mitigations) == len(than.Mitigations)
}

// instead reports whether a fix makes another one needless: it is enough, costs no more and has no other matters.
func (f *Fix) instead(of *Fix) bool {
	return f.Reaches && f.price <= of.price && matters(of.Mitigations, f.Mitigations)
}

// Title says what the fix does in one phrase.
func (f *Fix) Title() string {
	title := ""
	for i := range f.Mitigations {
		if i == 0 {
			title = f.Mitigations[i].Title
			continue
		}
		title += ", and " + strings.ToLower(f.Mitigations[i].Title[:1]) + f.Mitigations[i].Title[1:]
	}
	return title
}

// Changes returns the changes that the fix writes into the job.
func (f *Fix) Changes() []job.Change {
	var all []job.Change
	for i := range f.Mitigations {
		all = append(all, f.Mitigations[i].Changes...)
	}
	return all
}

// FindFix returns the fix with a key for the job as it is, nil if it no longer makes sense.
func (f *Forecast) FindFix(j job.Job, p *plan.Plan, key string) *Fix {
	fix, list := Fix{Key: key}, f.mitigations(&j, p)
	for _, one := range strings.Split(key, "+") {
		option := list.find(one)
		if option == nil {
			return nil
		}
		fix.Mitigations = append(fix.Mitigations, option)
	}
	return &fix
}
