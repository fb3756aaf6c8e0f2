package forecast

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/crew"
)

// searcher looks for combinations of mitigations. It compares the time by which nine in ten runs are done, since that
// moves even while the odds are still 0.
type searcher struct {
	job         *job.Job
	now         int64
	mitigations []*Mitigation
	list        *mitigationList
	late        int            // minutes after the doors as the job stands
	off         int            // minutes that quick plans end too early
	lateness    map[string]int // minutes after the doors with a combination, by key
	plans       int            // quick plans so far
	pause       func()

	before  *Forecast // the job without changes, with the [Usual] budget
	found   []Fix
	offered map[string]bool // combinations planned with the [Usual] budget, by key
	offers  int             // how many
}

// tryBudget is for comparing combinations, starting with the plan at hand. An offer is planned with [Usual].
var tryBudget = Budget{Schedules: 4, Runs: 100}

const (
	mostTried  = 64 // plans with tryBudget
	mostOffers = 7  // plans with Usual

	enoughFound = 4  // with so many, single changes that are not enough are left out
	mostPulled  = 5  // mitigations at once
	mostOfOne   = 12 // mitigations that change one piece
	mostAgain   = 6  // mitigations tried together with others
	never       = dayMinutes
)

func (f *Forecast) seek(j *job.Job, p *plan.Plan, now int64, pause func()) *searcher {
	list := f.mitigations(j, p)
	s := &searcher{job: j, now: now, pause: pause, list: list, mitigations: promising(list.list), late: never,
		lateness: map[string]int{}, offered: map[string]bool{}, before: f}
	if f.Planned() && f.Runs < Usual.fit(len(f.job.Tasks), len(f.job.People)).Runs {
		s.before = New(*j, *p, now, Usual.with(pause), nil)
	}
	s.late = s.lateWith(nil)
	if s.before.Planned() {
		s.off, s.late = s.before.late()-s.late, s.before.late()
		s.lateness[""] = s.late
	}
	return s
}

// promising drops the least promising changes to pieces if there are many.
func promising(mitigations []*Mitigation) []*Mitigation {
	for {
		n, least := 0, -1
		for i := range mitigations {
			if mitigations[i].piece != "" {
				n++
				if least < 0 || mitigations[i].promise <= mitigations[least].promise {
					least = i
				}
			}
		}
		if n <= mostOfOne {
			return mitigations
		}
		mitigations = append(mitigations[:least], mitigations[least+1:]...)
	}
}

// offer plans a combination as a press would and keeps it if it helps. It skips one that was offered before or that a
// cheaper fix replaces, and reports whether it planned it.
func (s *searcher) offer(set []int) bool {
	var fix Fix
	fix.Mitigations, fix.Key, fix.price = s.pull(set)
	if fix.Key == "" || s.offers == mostOffers || s.offered[fix.Key] {
		return false
	}
	for i := range s.found {
		if s.found[i].instead(&fix) {
			return false
		}
	}
	s.offers++
	s.offered[fix.Key] = true
	fix.Forecast = s.forecast(&fix)
	s.lateness[fix.Key] = fix.Forecast.late()
	if fix.Reaches = fix.Forecast.reaches(); fix.Reaches {
		s.fewer(&fix)
	}
	if fix.Forecast.Planned() &&
		(fix.Reaches && !s.before.reaches() || fix.Forecast.Odds >= s.before.Odds+leastGain ||
			s.before.hopeless() && fix.Forecast.late() <= s.before.late()-leastNearer) {
		s.found = append(s.found, fix)
	}
	return true
}

// reaches reports whether the odds reach the target.
func (f *Forecast) reaches() bool { return f.Planned() && f.Odds >= Target }

// fewer reduces the clusters made at home to the least that reaches the target, within about an eighth. It bisects
// between a number that reaches and one that does not.
func (s *searcher) fewer(fix *Fix) {
	for k := range fix.Mitigations {
		key := fix.Mitigations[k].Key
		if mitigationKind(key) != "ahead" {
			continue
		}
		enough, short := numberAhead(key), 0
		for step := max(1, enough/8); enough-short > step; {
			middle := (enough + short) / 2
			option := s.list.find(key[:strings.LastIndexByte(key, '/')+1] + strconv.Itoa(middle))
			if option == nil {
				break
			}
			then := Fix{Mitigations: slices.Clone(fix.Mitigations), Reaches: true,
				price: fix.price - fix.Mitigations[k].price + option.price}
			then.Mitigations[k] = option
			then.Key = keyOf(then.Mitigations)
			if then.Forecast = s.forecast(&then); then.Forecast.reaches() {
				*fix, enough = then, middle
			} else {
				short = middle
			}
		}
	}
}

// keyOf joins the keys of mitigations with a plus.
func keyOf(mitigations []*Mitigation) (key string) {
	for i := range mitigations {
		key += "+" + mitigations[i].Key
	}
	return strings.TrimPrefix(key, "+")
}

// hopeless reports whether the odds are so bad that only the end distinguishes changes.
func (f *Forecast) hopeless() bool { return f.Odds < crew.Hopeless }

// late returns the minutes after the doors by which nine in ten runs are done; never if there is no plan.
func (f *Forecast) late() int {
	if !f.Planned() {
		return never
	}
	return min(never, f.Ninety-f.Doors)
}

// pull returns the mitigations of a set in the order of the list, with their key and price.
func (s *searcher) pull(set []int) (mitigations []*Mitigation, key string, price float64) {
	for i := range s.mitigations {
		if holds(set, i) {
			mitigations = append(mitigations, s.mitigations[i])
			price += s.mitigations[i].price
		}
	}
	return mitigations, keyOf(mitigations), price
}

// forecast plans the job with the fix, as a press would.
func (s *searcher) forecast(fix *Fix) *Forecast {
	f, p := s.set(fix)
	if f != nil && f.Sentence == "" {
		f.plan(&p, Usual.with(s.pause), nil)
	}
	return f
}

// set prepares the forecast of the job with the fix. It returns nil if the car does not hold what the fix moves home.
func (s *searcher) set(fix *Fix) (*Forecast, plan.Plan) {
	s.rest()
	then := job.Try(*s.job, fix.Changes())
	s.rest()
	after := plan.Make(then)
	s.rest()
	for i := range fix.Mitigations {
		for _, name := range after.BuiltOnSite() {
			if fix.Mitigations[i].home && name == fix.Mitigations[i].piece {
				return nil, plan.Plan{}
			}
		}
	}
	return prepare(&then, &after, s.now, 0), after
}

func (s *searcher) rest() {
	if s.pause != nil {
		s.pause()
	}
}

// lateWith returns the minutes after the doors by which nine in ten runs are done with a set of mitigations; never if
// there is no plan or the budget is used up.
func (s *searcher) lateWith(set []int) int {
	var fix Fix
	fix.Mitigations, fix.Key, fix.price = s.pull(set)
	late, known := s.lateness[fix.Key]
	if known {
		return late
	}
	late = never
	if s.plans < mostTried {
		s.plans++
		if f, _ := s.set(&fix); f != nil && f.Sentence == "" && f.glance(tryBudget.with(s.pause), s.before) {
			late = f.late() + s.off
		}
	}
	s.lateness[fix.Key] = late
	return late
}

// worth returns the minutes that an option saves beside a set, as far as needed: per price, or as they are if strong.
// It is 0 if they are too few.
func (s *searcher) worth(set []int, late, option int, strong bool) float64 {
	gain := late - max(s.lateWith(with(set, option)), -spareMinutes)
	switch {
	case gain < leastSooner:
		return 0
	case strong:
		return float64(gain)
	}
	return float64(gain) / max(1, s.mitigations[option].price)
}

func with(set []int, option int) []int { return append(set[:len(set):len(set)], option) }

func holds(set []int, option int) bool {
	for _, i := range set {
		if i == option {
			return true
		}
	}
	return false
}

// climb adds the option worth most for its price until it is enough, then drops those not needed, dearest first. If
// that fails, it adds those that save most. It ignores options for which without is true.
func (s *searcher) climb(without func(*Mitigation) bool) []int {
	cheap := s.climbBy(without, false)
	if s.lateWith(cheap) <= 0 {
		return cheap
	}
	if strong := s.climbBy(without, true); s.lateWith(strong) < s.lateWith(cheap) {
		return strong
	}
	return cheap
}

func (s *searcher) climbBy(without func(*Mitigation) bool, strong bool) []int {
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

// best returns the mitigations that are worth most alone, one of each matter, at most mostAgain.
func (s *searcher) best(without func(*Mitigation) bool, strong bool) []int {
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

// clashes reports whether an option has the same matter as one of a set.
func (s *searcher) clashes(set []int, option int) bool {
	for _, i := range set {
		if s.mitigations[i].matter == s.mitigations[option].matter {
			return true
		}
	}
	return false
}

func (s *searcher) prune(set []int) []int {
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

// search offers combinations, the most promising first: the one that climb finds, one without its chief option, one
// that costs neither money nor look, one that costs no money, one that asks nothing of the venue, and the strongest
// single option of each kind.
func (s *searcher) search() {
	chief := ""
	for set := s.climb(nil); s.offer(set); set = s.climb(nil) { // again if the full plan shows that it is not enough
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

// matters reports whether mitigations have all the matters of others.
func matters(mitigations, others []*Mitigation) bool {
	for k := range others {
		found := false
		for i := range mitigations {
			found = found || mitigations[i].matter == others[k].matter
		}
		if !found {
			return false
		}
	}
	return true
}

// singles returns the best mitigation of each kind: the cheapest that is enough, or the one that saves most. Those that
// are enough come first.
func (s *searcher) singles() []int {
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
