package forecast

import (
	"cmp"
	"encoding/json"
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
	"garlandry/calc/stable"
)

// Which times are believed. All are from memory, no source.
const (
	oneMomentMS = minuteMS // taps within a minute are one moment
	tooFast     = 4        // work in less than a quarter of the table's time was counted afterwards
	tooSlow     = 3        // beyond three times the table's, and restMinutes, there was a break
	restMinutes = 10
	leastSpans  = 2    // of counts: one pause between two of them may be anything
	leastTimed  = 0.25 // of the batch: less says too little about the rest
)

// tap is a count or a tick by a person.
type tap struct {
	card  string
	at    int64   // Unix milliseconds
	share float64 // of the card; 0: it tells only when the person was there
}

// moment is one or more taps of a person that were entered together.
type moment struct {
	card        string
	mixed       bool // of several cards: how long each took is unknown
	first, last int64
	share       float64
}

// timed is work on a card whose time is known.
type timed struct {
	worker         string
	minutes, share float64
}

// timer finds out how long work took.
type timer struct {
	job    *job.Job
	cards  map[string]*task.Card
	skills map[string]figures.Skill
	people []string           // who tapped, in the order of the cards
	taps   map[string][]tap   // by person
	shares map[string]float64 // share of each card that was counted
	found  map[string][]timed // by card
}

// timedWork returns the work on each card whose time is known: typed in, or shown by taps. Taps within a minute are one
// moment, and so are taps that come too fast for what they count. The time since the person's moment before is work on
// the card, if that moment counted on the same card or the person had taken the card. A moment on several cards times
// none of them. What was timed of a card counts only if it is a large enough share.
func (f *Forecast) timedWork(j *job.Job, p *plan.Plan) map[string][]timed {
	t := &timer{job: j, cards: map[string]*task.Card{}, skills: map[string]figures.Skill{}, taps: map[string][]tap{},
		shares: map[string]float64{}, found: map[string][]timed{}}
	for i := range f.People {
		t.skills[f.People[i].Name] = figures.Practised
		if !f.People[i].Practised {
			t.skills[f.People[i].Name] = figures.Beginner
		}
	}
	for i := range p.Cards {
		if card := &p.Cards[i]; !card.Gone {
			t.cards[card.Key] = card
			t.collect(card)
		}
	}
	for _, person := range t.people {
		t.follow(person)
	}
	for i := range p.Cards {
		if card := &p.Cards[i]; !card.Gone {
			t.judge(card)
		}
	}
	return t.found
}

// nameOf returns the name under which the clock knows an author.
func nameOf(a job.Author) string {
	if a.Name == "" && a.Role == job.Owner {
		return job.UnnamedOwner
	}
	return a.Name
}

// collect adds the taps on a card. What a tick or a count by eye adds to the counts before it is the work of the person
// who took the card, if the same person made the tick and nobody else counted.
func (t *timer) collect(card *task.Card) {
	shared, made := false, 0
	for _, e := range counts(t.job.State.Tally(card.Key)) {
		if card.Count > 0 {
			person := nameOf(e.Author)
			shared = shared || person != card.TakenBy
			made += int(e.Delta)
			t.add(person, tap{card.Key, e.Effective, float64(e.Delta) / float64(card.Count)})
		}
	}
	at, person, known := t.ended(card)
	if !known {
		return
	}
	share := 0.0
	switch {
	case shared || person != card.TakenBy:
	case card.Count == 0:
		share = 1
	default:
		share = max(0, float64(min(card.Made, card.Count)-made)/float64(card.Count))
	}
	t.add(person, tap{card.Key, at, share})
}

func (t *timer) add(person string, x tap) {
	if t.taps[person] == nil {
		t.people = append(t.people, person)
	}
	t.shares[x.card] += x.share
	t.taps[person] = append(t.taps[person], x)
}

// counts returns the additions that stand, without what the same person took off again.
func counts(t *job.Tally) (list []job.TallyEntry) {
	standing := map[string][]int{} // indexes in the list, by person
	for _, e := range t.Live() {
		if e.Pending() {
			continue
		}
		person := nameOf(e.Author)
		mine := standing[person]
		for len(mine) > 0 && e.Delta < 0 {
			last := &list[mine[len(mine)-1]]
			off := min(last.Delta, -e.Delta)
			last.Delta, e.Delta = last.Delta-off, e.Delta+off
			if last.Delta == 0 {
				mine = mine[:len(mine)-1]
			}
		}
		if e.Delta > 0 {
			mine = append(mine, len(list))
			list = append(list, e)
		}
		standing[person] = mine
	}
	return slices.DeleteFunc(list, func(e job.TallyEntry) bool { return e.Delta == 0 })
}

// ended returns when a done card was ticked or counted by eye, and by whom.
func (t *timer) ended(card *task.Card) (at int64, author string, known bool) {
	if !card.Done {
		return 0, "", false
	}
	if count, _ := t.job.State.Tally(card.Key).Standing(); count != nil && !count.Pending() {
		at, author, known = count.Effective, nameOf(count.Author), true
	}
	if r := t.job.State.Register(card.Key, "done").Readings; t.job.Done(card.Key) && !r[0].Pending() &&
		r[0].Effective > at {
		at, author, known = r[0].Effective, nameOf(r[0].Author), true
	}
	return at, author, known
}

// follow goes through a person's taps in the order in which they came.
func (t *timer) follow(person string) {
	taps := t.taps[person]
	stable.Sort(taps, func(a, b tap) int { return cmp.Compare(a.at, b.at) })
	before, counted := (*moment)(nil), map[string]bool{}
	for len(taps) > 0 {
		m := moment{card: taps[0].card, first: taps[0].at}
		for ; len(taps) > 0 && (m.last == 0 || t.joins(&m, person, &taps[0])); taps = taps[1:] {
			m.mixed = m.mixed || taps[0].card != m.card
			m.last, m.share = taps[0].at, m.share+taps[0].share
		}
		if !m.mixed {
			t.span(person, &m, before, counted[m.card])
			counted[m.card] = true
		}
		before = &m
	}
}

// joins reports whether a tap belongs to a moment.
func (t *timer) joins(m *moment, person string, x *tap) bool {
	return x.at-m.first < oneMomentMS ||
		x.card == m.card && float64(x.at-m.last)/minuteMS < t.planned(x.card, person, x.share)/tooFast
}

// planned returns the minutes by the clock that the table gives a person for a share of a card, with the least hands
// that it needs. People who are not in the crew list count as practised.
func (t *timer) planned(key, person string, share float64) float64 {
	card := t.cards[key]
	return float64(t.tableOf(card, person)*share) / hands(card)
}

// tableOf returns the person-minutes that the table gives a person for a card.
func (t *timer) tableOf(card *task.Card, person string) float64 {
	return card.MinutesBy[string(cmp.Or(t.skills[person], figures.Practised))]
}

// hands returns the least hands that a card needs.
func hands(card *task.Card) float64 { return float64(max(1, card.HandsMin)) }

// span adds the time of a moment's work: since the moment before, or since the person took the card. It adds nothing if
// that cannot be the time of the work.
func (t *timer) span(person string, m, before *moment, counted bool) {
	card, from, known := t.cards[m.card], int64(0), counted
	if !counted && card.TakenBy == person {
		from, known = t.taken(card)
	}
	if before != nil {
		from = max(from, before.last)
	}
	minutes, planned := float64(m.last-from)/minuteMS, t.planned(m.card, person, m.share)
	if known && m.share > 0 && minutes >= 1 && float64(minutes*tooFast) >= planned &&
		minutes <= float64(tooSlow*planned)+restMinutes {
		t.found[m.card] = append(t.found[m.card], timed{person, float64(minutes * hands(card)), m.share})
	}
}

// taken returns when the work on a card that somebody took could begin: what comes before it was done by then.
func (t *timer) taken(card *task.Card) (at int64, known bool) {
	readings := t.job.State.Register(card.Key, "taken").Readings
	if len(readings) == 0 || readings[0].Pending() {
		return 0, false
	}
	at = readings[0].Effective
	for _, key := range task.Keys(card.After) {
		if before := t.cards[key]; before != nil {
			done, _, _ := t.ended(before)
			at = max(at, done)
		}
	}
	return at, true
}

// wholeShare is the share of a card from which on it counts as all of it. It forgives rounding.
const wholeShare = 0.99

// judge keeps what was timed of a card only if it says enough about it. A time that was typed in replaces it.
func (t *timer) judge(card *task.Card) {
	key, share := card.Key, 0.0
	for _, w := range t.found[key] {
		share += w.share
	}
	if len(t.found[key]) < leastSpans && share < wholeShare || share < leastTimed {
		delete(t.found, key)
	}
	made := 1.0
	if card.Count > 0 {
		made = float64(min(card.Made, card.Count)) / float64(card.Count)
	}
	if all := t.shares[key]; all > made { // counted too many
		for i := range t.found[key] {
			t.found[key][i].share = float64(t.found[key][i].share*made) / all
		}
	}
	if minutes, share := t.typed(card); minutes > 0 && share > 0 {
		t.found[key] = t.divide(card, float64(minutes*hands(card)), share)
	}
	if raw := t.job.State.Register(key, "minutes").Value(); len(raw) > 0 && string(raw) != "null" {
		delete(t.found, key) // somebody planned it by hand, so it says nothing about the table
	}
}

// typed returns the minutes by the clock that somebody typed in, and the share of the card that was made by then.
func (t *timer) typed(card *task.Card) (minutes, share float64) {
	readings := t.job.State.Register(card.Key, "took").Readings
	if len(readings) == 0 || json.Unmarshal(readings[0].Value, &minutes) != nil || minutes < 1 {
		return 0, 0
	}
	if card.Count == 0 {
		if card.Done {
			share = 1
		}
		return minutes, share
	}
	later := int64(0)
	_, more := t.job.State.Tally(card.Key).Standing()
	for _, e := range more {
		if readings[0].Stamp.Less(e.Stamp) {
			later += e.Delta
		}
	}
	made := min(int64(card.Made), int64(card.Made)-later, int64(card.Count))
	return minutes, max(0, float64(made)/float64(card.Count))
}

// divide gives a time to those who counted on the card by what they made, else to who took it or ticked it.
func (t *timer) divide(card *task.Card, minutes, share float64) (list []timed) {
	made, planned := 0.0, 0.0
	for _, e := range counts(t.job.State.Tally(card.Key)) {
		list = append(list, timed{worker: nameOf(e.Author), share: float64(e.Delta)})
		made += float64(e.Delta)
	}
	if len(list) == 0 {
		_, person, _ := t.ended(card)
		list, made = []timed{{worker: cmp.Or(card.TakenBy, person), share: 1}}, 1
	}
	for i := range list {
		w := &list[i]
		w.share = float64(w.share*share) / made
		w.minutes = float64(w.share * t.tableOf(card, w.worker))
		planned += w.minutes
	}
	for i := range list {
		list[i].minutes = float64(list[i].minutes*minutes) / planned
	}
	return list
}
