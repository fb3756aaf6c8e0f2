// Package task divides a job into cards: one task each, with steps, minutes, hands, cautions and what comes before.
// Start at [List].
package task

import (
	"cmp"
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/app/plan/transport"
	"garlandry/calc/stable"
)

// rule makes the cards of one family.
type rule struct {
	family Family
	place  Place  // where it lists cards that are gone
	noun   string // what the id names in the job: piece, layer, kit or added; "" if the family has one card
	title  string // of the card; the name of its subject follows
	cards  func(d *draft, r *rule)
}

// rules lists every rule, in working order within a place. A new rule is one file and one line here.
var rules = []*rule{
	&shopRule, &testRule, &unloadRule, &tripRule, &carryRule, &lookRule, &frameRule, &coverRule,
	&aheadRule, &makeRule, &layerRule, &accentRule, &joinRule, &fixRule, &growRule, &dressRule, &signRule, &ownRule,
	&packRule, &loadRule, &shineRule, &tidyRule, &downRule, &strikeRule, &reloadRule, &sweepRule,
}

// placeRank returns the working order of places.
func placeRank(p Place) int {
	switch p {
	case Home:
		return 0
	case Load:
		return 1
	case Site:
		return 2
	}
	return 3
}

// draft holds the cards made so far and what they are made from.
type draft struct {
	*rigging.Rig
	transport transport.Plan
	pack      []packing.Bag
	cards     []Card
}

// List runs the rules and puts the cards in working order. References to cards that are not in the plan are dropped.
// Every card takes time, at least [LeastMinutes].
func List(rig *rigging.Rig, car transport.Plan, pack []packing.Bag) []Card {
	d := &draft{Rig: rig, transport: car, pack: pack}
	for _, rule := range rules {
		rule.cards(d, rule)
	}
	cards := d.cards
	stable.Sort(cards, func(a, b Card) int { return cmp.Compare(placeRank(a.Place), placeRank(b.Place)) })
	there := make(map[Ref]bool, len(cards))
	for _, c := range cards {
		there[RefTo(c.Key)] = true
	}
	for i := range cards {
		cards[i].After = slices.DeleteFunc(cards[i].After, func(r Ref) bool { return !there[r] })
		cards[i].takesTime()
	}
	d.doneAlone(cards)
	return cards
}

// LeastMinutes is the least time of a card, in person-minutes, so that somebody does it. From memory, no source.
const LeastMinutes = 0.1

// takesTime raises the card's minutes to [LeastMinutes] where they are fewer.
func (c *Card) takesTime() {
	slow, fast := c.MinutesBy[string(figures.Beginner)], c.MinutesBy[string(figures.Practised)]
	if c.Minutes > LeastMinutes && slow > LeastMinutes && fast > LeastMinutes {
		return
	}
	c.Minutes = atLeast(c.Minutes)
	c.MinutesBy = effort{beginner: atLeast(slow), practised: atLeast(fast)}.by()
}

// atLeast returns minutes, or the least time of a card if they are fewer or no number.
func atLeast(minutes float64) float64 {
	if !(minutes > LeastMinutes) {
		return LeastMinutes
	}
	return minutes
}

// card adds a card of the rule to the draft, to be filled in.
func (r *rule) card(d *draft, id, subject string) *Card {
	key := r.family.Of(id).Key()
	d.cards = append(d.cards, Card{Key: key, Place: r.place, Title: r.title + subject, HandsMin: 1, HandsMax: 1})
	return &d.cards[len(d.cards)-1]
}

// pieceCard adds a card about a piece.
func (r *rule) pieceCard(d *draft, c *count.Counted) *Card {
	card := r.card(d, c.Piece.ID, c.Piece.Name)
	card.Piece, card.Priority = c.Piece.ID, c.Piece.Priority
	return card
}

// care adds cautions to the card.
func (c *Card) care(list ...*Caution) {
	for _, caution := range list {
		c.Cautions = append(c.Cautions, *caution)
	}
}

// takes sets the time a card takes and adds its calculation to the working.
func (c *Card) takes(e effort) {
	c.Minutes, c.MinutesBy = e.crew, e.by()
	c.Working = append(c.Working, e.lines...)
}

// counts sets what the card's tally counts.
func (c *Card) counts(b count.Batch) {
	c.Count, c.Unit = b.Count, b.Many
	if b.Count == 1 {
		c.Unit = b.One
	}
}

// hands sets how many people work on the card at once.
func (d *draft) hands(c *Card, least, most int) {
	c.HandsMin, c.HandsMax = least, max(least, most)
}

// most returns how many people fit round a piece; pair, how many lift together.
func (d *draft) most() int { return int(d.Figures.Get("hands/piece")) }
func (d *draft) pair() int { return int(d.Figures.Get("hands/lift")) }

// last refers to the final cards of a place before the newest card: those that no other card waits for. When they
// are done, so are all others.
func (d *draft) last(place Place) []Ref {
	before := d.cards[:len(d.cards)-1]
	waited := map[Ref]bool{}
	for _, c := range before {
		if c.Place == place {
			for _, r := range c.After {
				waited[r] = true
			}
		}
	}
	var last []Ref
	for _, c := range before {
		if r := RefTo(c.Key); c.Place == place && !waited[r] {
			last = append(last, r)
		}
	}
	return last
}

// gone makes a card for a key that was worked on but is no longer in the plan.
func gone(j job.Job, key string) Card {
	ref := RefTo(key)
	id := cmp.Or(ref.ID, string(ref.Family))
	card := Card{Key: key, Place: TakeDown, Title: job.KeyPath(key), Gone: true}
	for _, rule := range rules {
		if rule.family != ref.Family {
			continue
		}
		field := "name"
		if rule.noun == "added" {
			field = "text"
		}
		subject := ""
		if rule.noun != "" {
			subject = phrase.Field(j, rule.noun+"/"+id, field, id)
			if rule.noun == "layer" {
				subject = phrase.Field(j, "layer/"+id, field, (&job.Layer{}).Called())
				card.Piece = phrase.Field(j, "layer/"+id, "piece", "")
			}
		}
		card.Place, card.Title = rule.place, rule.title+subject
		if rule.noun == "piece" {
			card.Piece = id
		}
	}
	return card
}

// Place is where a card is done.
type Place string

// The places, in working order.
const (
	Home     Place = "home"
	Load     Place = "load"
	Site     Place = "site"
	TakeDown Place = "takedown"
)

// Card is one task.
type Card struct {
	Key       string // also the entity of its tick or tally: "card/make/door"
	Place     Place
	Title     string
	Piece     string // id of its piece, "" if of none
	Steps     []string
	Count     int    // how many to make; 0: a tick
	Unit      string // "clusters"
	Made      int
	ByKind    []int              `json:",omitempty"` // of its clusters, in the order of their names; nil: none by kind
	Done      bool               // ticked, or all made
	Stood     string             // why a ticked card is open again; "" if it is not
	HandsMin  int                // people it needs at once
	HandsMax  int                // more get in each other's way
	Minutes   float64            // person-minutes for all of it, with this crew
	MinutesBy map[string]float64 // the same for beginners and for practised people
	After     []Ref              // cards that come before
	Waits     []string           // titles of those not done yet
	TakenBy   string
	Cars      []string // ids of the cars it occupies
	By        []string // ids of the only people who may do it, "" for the owner without a name; nil: everybody
	Note      string
	Cautions  []Caution
	Priority  string // of its piece
	Beyond    int    // made but no longer needed
	Gone      bool   // worked on but no longer in the plan
	Working   []figures.Line
}

// Full reports whether all that a card counts is made.
func (c Card) Full() bool { return c.Count > 0 && c.Made >= c.Count }

// Left returns the person-minutes still to do.
func (c Card) Left() float64 {
	switch {
	case c.Done:
		return 0
	case c.Count > 0:
		return c.Minutes * float64(max(0, c.Count-c.Made)) / float64(c.Count)
	}
	return c.Minutes
}
