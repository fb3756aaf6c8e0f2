package forecast

import (
	"strconv"
	"strings"

	"garlandry/app/plan"

	"garlandry/app/job"
)

// seeker looks for combinations of levers by the time that nine in ten runs are done: it moves where the odds still are
// 0.
type seeker struct {
	job         *job.Job
	now         int64
	mitigations []*Mitigation
	list        *mitigationList
	late        int            // minutes after the doors as the job stands
	off         int            // what is looked at comes out so many minutes too soon
	seen        map[string]int // the same with a combination, by its key
	plans       int            // made so far
	pause       func()

	before  *Forecast // of the job as it stands, a plan as [Usual]
	found   []Fix
	offered map[string]bool // those that were made as [Usual], by key
	offers  int             // how many
}

// tryBudget is for a combination that is looked at, beginning with the plan at hand; what is offered is then made as
// [Usual].
var tryBudget = Budget{Schedules: 4, Runs: 100}

const (
	mostTried  = 64 // plans of the size of tryBudget
	mostOffers = 7  // and of Usual

	enoughFound = 4  // no single change that is not enough is looked for beside so many
	mostPulled  = 5  // levers at once
	mostOfOne   = 12 // levers that change one piece
	mostAgain   = 6  // levers that are looked at again beside others
	never       = dayMinutes
)

func (c *Forecast) seek(j *job.Job, p *plan.Plan, now int64, pause func()) *seeker {
	list := c.mitigations(j, p)
	s := &seeker{job: j, now: now, pause: pause, list: list, mitigations: promising(list.list), late: never,
		seen: map[string]int{}, offered: map[string]bool{}, before: c}
	if c.Planned() && c.Runs < Usual.fit(len(c.job.Tasks), len(c.job.People)).Runs {
		s.before = New(*j, *p, now, Usual.with(pause), nil)
	}
	s.late = s.lateWith(nil)
	if s.before.Planned() {
		s.off, s.late = s.before.late()-s.late, s.before.late()
		s.seen[""] = s.late
	}
	return s
}

// promising leaves out changes to one piece that promise least, where there are many.
func promising(levers []*Mitigation) []*Mitigation {
	for {
		n, least := 0, -1
		for i := range levers {
			if levers[i].piece != "" {
				n++
				if least < 0 || levers[i].promise <= levers[least].promise {
					least = i
				}
			}
		}
		if n <= mostOfOne {
			return levers
		}
		levers = append(levers[:least], levers[least+1:]...)
	}
}

// offer works a combination out as it would be once it was pressed, unless that was done or one that was found does as
// much for less, and keeps it if it helps. It reports whether that was worth looking at.
func (s *seeker) offer(set []int) bool {
	var f Fix
	f.Mitigations, f.Key, f.price = s.pull(set)
	if f.Key == "" || s.offers == mostOffers || s.offered[f.Key] {
		return false
	}
	for i := range s.found {
		if s.found[i].instead(&f) {
			return false
		}
	}
	s.offers++
	s.offered[f.Key] = true
	f.Forecast = s.forecast(&f)
	s.seen[f.Key] = f.Forecast.late()
	if f.Reaches = f.Forecast.reaches(); f.Reaches {
		s.fewer(&f)
	}
	if f.Forecast.Planned() &&
		(f.Reaches && !s.before.reaches() || f.Forecast.Odds >= s.before.Odds+leastGain || s.before.hopeless() && f.Forecast.late() <= s.before.late()-leastNearer) {
		s.found = append(s.found, f)
	}
	return true
}

// reaches reports whether the odds are what fixes are to bring.
func (c *Forecast) reaches() bool { return c.Planned() && c.Odds >= Target }

// fewer makes no more at home than is enough, to about an eighth: of each lever for so many clusters it halves the span
// between a number that reaches and one that does not.
func (s *seeker) fewer(f *Fix) {
	for k := range f.Mitigations {
		key := f.Mitigations[k].Key
		if mitigationKind(key) != "ahead" {
			continue
		}
		enough, short := numberAhead(key), 0
		for step := max(1, enough/8); enough-short > step; {
			middle := (enough + short) / 2
			lever := s.list.find(key[:strings.LastIndexByte(key, '/')+1] + strconv.Itoa(middle))
			if lever == nil {
				break
			}
			then := Fix{Mitigations: append([]*Mitigation(nil), f.Mitigations...), price: f.price - f.Mitigations[k].price + lever.price,
				Reaches: true}
			then.Mitigations[k] = lever
			then.Key = keyOf(then.Mitigations)
			if then.Forecast = s.forecast(&then); then.Forecast.reaches() {
				*f, enough = then, middle
			} else {
				short = middle
			}
		}
	}
}

// keyOf is the keys of levers with a plus between.
func keyOf(levers []*Mitigation) (key string) {
	for i := range levers {
		key += "+" + levers[i].Key
	}
	return strings.TrimPrefix(key, "+")
}

// hopeless reports whether the odds are so bad that only the end tells one change from another.
func (c *Forecast) hopeless() bool { return c.Odds < leastGain }

// late is how many minutes after the doors nine in ten runs are done; never if there is no plan.
func (c *Forecast) late() int {
	if !c.Planned() {
		return never
	}
	return min(never, c.Ninety-c.Doors)
}

// pull gives the levers of a set in the order of their list, whatever the set's, with their key and price.
func (s *seeker) pull(set []int) (levers []*Mitigation, key string, price float64) {
	for i := range s.mitigations {
		if holds(set, i) {
			levers = append(levers, s.mitigations[i])
			price += s.mitigations[i].price
		}
	}
	return levers, keyOf(levers), price
}

// clock is that of the job with the fix, as it would be once it was pressed.
func (s *seeker) forecast(f *Fix) *Forecast {
	c, p := s.set(f)
	if c != nil && c.Sentence == "" {
		c.plan(&p, Usual.with(s.pause), nil)
	}
	return c
}

// set is the job with the fix, not yet planned, and what it asks for; nil if the car does not take what it moves home.
func (s *seeker) set(f *Fix) (*Forecast, plan.Plan) {
	s.rest()
	then := job.Try(*s.job, f.Changes())
	s.rest()
	after := plan.Make(then)
	s.rest()
	for i := range f.Mitigations {
		for _, name := range after.BuiltOnSite() {
			if f.Mitigations[i].home && name == f.Mitigations[i].piece {
				return nil, plan.Plan{}
			}
		}
	}
	return prepare(&then, &after, s.now, 0), after
}

func (s *seeker) rest() {
	if s.pause != nil {
		s.pause()
	}
}

// lateWith is how many minutes after the doors nine in ten runs are done with a set of levers; never if there is no
// plan, or no more may be made.
func (s *seeker) lateWith(set []int) int {
	var f Fix
	f.Mitigations, f.Key, f.price = s.pull(set)
	late, known := s.seen[f.Key]
	if known {
		return late
	}
	late = never
	if s.plans < mostTried {
		s.plans++
		if c, _ := s.set(&f); c != nil && c.Sentence == "" && c.glance(tryBudget.with(s.pause), s.before) {
			late = c.late() + s.off
		}
	}
	s.seen[f.Key] = late
	return late
}

// worth is the minutes that a lever brings beside a set, as far as they are needed, for its price, or as such; 0 if too
// few.
func (s *seeker) worth(set []int, late, lever int, strong bool) float64 {
	gain := late - max(s.lateWith(with(set, lever)), -spareMinutes)
	switch {
	case gain < leastSooner:
		return 0
	case strong:
		return float64(gain)
	}
	return float64(gain) / max(1, s.mitigations[lever].price)
}

func with(set []int, lever int) []int { return append(set[:len(set):len(set)], lever) }

func holds(set []int, lever int) bool {
	for _, i := range set {
		if i == lever {
			return true
		}
	}
	return false
}

// climb pulls whatever lever is worth most for its price until it is enough, then lets go of those that are not needed,
// dearest first. If that does not get there, it pulls those that bring most. Levers that are left out are not looked
// at.
func (s *seeker) climb(without func(*Mitigation) bool) []int {
	cheap := s.climbBy(without, false)
	if s.lateWith(cheap) <= 0 {
		return cheap
	}
	if strong := s.climbBy(without, true); s.lateWith(strong) < s.lateWith(cheap) {
		return strong
	}
	return cheap
}

func (s *seeker) climbBy(without func(*Mitigation) bool, strong bool) []int {
	var set []int
	list := s.best(without, strong)
	for late := s.late; late > -spareMinutes && len(set) < mostPulled; {
		best, most := -1, 0.0
		for _, i := range list {
			if s.clashes(set, i) {
				continue
			}
			if worth := s.worth(set, late, i, strong); worth > most {
				best, most = i, worth
			}
		}
		if best < 0 {
			break
		}
		set = with(set, best)
		late = s.lateWith(set)
	}
	return s.prune(set)
}

// best are the levers that are worth most alone, one of each matter, as many as may be looked at again.
func (s *seeker) best(without func(*Mitigation) bool, strong bool) []int {
	var list []int
	worth := func(k int) float64 { return s.worth(nil, s.late, list[k], strong) }
	for i := range s.mitigations {
		if without != nil && without(s.mitigations[i]) {
			continue
		}
		list = append(list, i)
		for k := len(list) - 1; k > 0 && worth(k) > worth(k-1); k-- {
			list[k], list[k-1] = list[k-1], list[k]
		}
	}
	var kept []int
	for k, i := range list {
		if len(kept) < mostAgain && worth(k) > 0 && !s.clashes(kept, i) {
			kept = append(kept, i)
		}
	}
	return kept
}

// clashes reports whether a lever is of the same matter as one of a set.
func (s *seeker) clashes(set []int, lever int) bool {
	for _, i := range set {
		if s.mitigations[i].matter == s.mitigations[lever].matter {
			return true
		}
	}
	return false
}

func (s *seeker) prune(set []int) []int {
	if len(set) < 2 || s.lateWith(set) > 0 {
		return set
	}
	for {
		dearest, at := -1, 0.0
		for k := range set {
			rest := append(set[:k:k], set[k+1:]...)
			if price := s.mitigations[set[k]].price; price > at && len(rest) > 0 && s.lateWith(rest) <= 0 {
				dearest, at = k, price
			}
		}
		if dearest < 0 {
			return set
		}
		set = append(set[:dearest:dearest], set[dearest+1:]...)
	}
}

// search looks at the combinations that deserve a whole plan, the most promising first: the one that climbing finds,
// one without its chief lever, one that costs neither money nor look, one that costs no money, one that asks nothing of
// the venue, and of each kind of lever the one that brings most.
func (s *seeker) search() {
	chief := ""
	for set := s.climb(nil); s.offer(set); set = s.climb(nil) { // again where the whole plan shows that it is not enough
		at := never
		for _, i := range set {
			if late := s.lateWith([]int{i}); late <= at {
				chief, at = mitigationKind(s.mitigations[i].Key), late
			}
		}
	}
	singles := s.singles()
	for _, i := range singles {
		if s.lateWith([]int{i}) <= 0 {
			s.offer([]int{i})
		}
	}
	s.offer(s.climb(func(l *Mitigation) bool { return mitigationKind(l.Key) == chief }))
	s.offer(s.climb(func(l *Mitigation) bool { return l.Look > 0 || l.Money > 0 }))
	s.offer(s.climb(func(l *Mitigation) bool { return l.Money > 0 }))
	s.offer(s.climb(func(l *Mitigation) bool { return mitigationKind(l.Key) == "sooner" }))
	for _, i := range singles {
		if len(s.found) < enoughFound {
			s.offer([]int{i})
		}
	}
}

// matters reports whether levers are of all the matters that others are of.
func matters(levers, others []*Mitigation) bool {
	for k := range others {
		there := false
		for i := range levers {
			there = there || levers[i].matter == others[k].matter
		}
		if !there {
			return false
		}
	}
	return true
}

// singles are the levers that bring most of their kind, or enough at the least price: those that are enough first, then
// by what they are worth.
func (s *seeker) singles() []int {
	var best []int
	better := func(a, b int) bool {
		lateA, lateB := s.lateWith([]int{a}), s.lateWith([]int{b})
		switch enoughA, enoughB := lateA <= 0, lateB <= 0; {
		case enoughA != enoughB:
			return enoughA
		case enoughA:
			return s.mitigations[a].price < s.mitigations[b].price
		}
		return lateA < lateB
	}
	for i := range s.mitigations {
		if s.worth(nil, s.late, i, true) == 0 {
			continue
		}
		at := len(best)
		for k := range best {
			if mitigationKind(s.mitigations[best[k]].Key) == mitigationKind(s.mitigations[i].Key) {
				at = k
			}
		}
		switch {
		case at == len(best):
			best = append(best, i)
		case better(i, best[at]):
			best[at] = i
		}
	}
	for i := range best {
		for k := i; k > 0 && better(best[k], best[k-1]); k-- {
			best[k], best[k-1] = best[k-1], best[k]
		}
	}
	return best
}

func mitigationKind(key string) string {
	kind, _, _ := strings.Cut(key, "/")
	return kind
}
