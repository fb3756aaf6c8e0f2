package job

import (
	"encoding/json"
	"slices"
	"sort"
	"strings"
)

// losersKept is how many earlier values of a register stay in the state, for undo and for "other version".
const losersKept = 5

// Reading is one value of a register, with who set it and when.
type Reading struct {
	Stamp
	Value  json.RawMessage `json:"v"`
	Author Author          `json:"by"`
	// of a note: the ids its author had seen there, [""] for none; nil: unknown
	Saw []string `json:"p,omitempty"`
}

// Register is a field of an entity: the current reading first, then up to five earlier ones, newest first.
type Register struct {
	Readings []Reading `json:"r"`
}

// Value returns the current value, nil if there is none.
func (r Register) Value() json.RawMessage {
	if len(r.Readings) == 0 {
		return nil
	}
	return r.Readings[0].Value
}

// Unseen returns the other versions of a note, newest first: earlier readings with another text that the author of the
// current one had not seen. A person who wrote after two versions came together counts as having seen both. Unseen is
// empty if it is unknown what was seen.
func (r Register) Unseen() []Reading {
	if len(r.Readings) == 0 || len(r.Readings[0].Saw) == 0 {
		return nil
	}
	now, seen, end := r.Readings[0], map[string]bool{}, len(r.Readings)
	for i, x := range r.Readings { // newest first: each comes before what its author saw
		if i == 0 || seen[x.ID] {
			for _, id := range x.Saw {
				seen[id] = true
			}
		}
		for _, id := range now.Saw {
			if id == x.ID {
				end = i
			}
		}
	}
	var list []Reading
	for _, x := range r.Readings[1:max(1, end)] {
		if text := string(x.Value); !seen[x.ID] && text != string(now.Value) && text != `""` && text != "null" {
			list = append(list, x)
		}
	}
	return list
}

// TallyEntry is one addition to a tally.
type TallyEntry struct {
	Stamp
	Delta  int64  `json:"dx"`
	Author Author `json:"by"`
	Of     string `json:"of,omitempty"` // the key of the kind of what was added, "" if nobody said
}

// Tally is a sum of additions. Each can be taken back by id, and a count by eye replaces those it covers.
type Tally struct {
	Entries []TallyEntry      `json:"a,omitempty"` // in stamp order
	Undone  map[string]Author `json:"u,omitempty"` // by the id of the operation taken back
	Counts  []CountEntry      `json:"c,omitempty"` // in stamp order
}

// CountEntry is one count by eye.
type CountEntry struct {
	Stamp
	Counted
	Author Author `json:"by"`
}

// Total returns the last count by eye that was not taken back, plus every addition that it does not cover and that was
// not taken back. It may be negative; pages show zero then.
func (t *Tally) Total() int64 {
	total := int64(0)
	count, more := t.Standing()
	if count != nil {
		total = count.N
	}
	for _, e := range more {
		total += e.Delta
	}
	return total
}

// Standing returns the parts of the total: the last count by eye that was not taken back, nil if there is none, and the
// additions on top of it in stamp order.
func (t *Tally) Standing() (count *CountEntry, more []TallyEntry) {
	if t == nil {
		return nil, nil
	}
	covered := map[string]bool{}
	for i := len(t.Counts) - 1; i >= 0; i-- {
		if _, undone := t.Undone[t.Counts[i].ID]; !undone {
			count = &t.Counts[i]
			for _, id := range count.Covers {
				covered[id] = true
			}
			break
		}
	}
	for _, e := range t.Live() {
		if !covered[e.ID] {
			more = append(more, e)
		}
	}
	return count, more
}

// Live lists the entries that were not taken back, in stamp order.
func (t *Tally) Live() []TallyEntry {
	if t == nil {
		return nil
	}
	var live []TallyEntry
	for _, e := range t.Entries {
		if _, undone := t.Undone[e.ID]; !undone {
			live = append(live, e)
		}
	}
	return live
}

// State is the fold of a set of operations. It depends only on the set, not on the order, batches or repeats in which
// they came. Use [NewState]; the zero State is not ready.
type State struct {
	Registers map[string]map[string]*Register `json:"reg"`             // entity, then field
	Tallies   map[string]*Tally               `json:"tal"`             // by entity
	Unknown   []Rec                           `json:"unk,omitempty"`   // kinds of a newer version, in stamp order
	First     int64                           `json:"first,omitempty"` // the earliest accepted stamp
	Last      int64                           `json:"last,omitempty"`  // the latest accepted stamp

	// Stale says that an operation was set aside, or that undone, after it may have been folded. The state has lost what
	// it had replaced: fold all records again. The result of [Fold] is never stale.
	Stale bool `json:"stale,omitempty"`

	work work
}

// work counts the steps of folding, for tests: an attacker can choose the order in which operations come.
type work struct{ compared, moved int }

// NewState returns an empty state.
func NewState() *State {
	return &State{Registers: map[string]map[string]*Register{}, Tallies: map[string]*Tally{}}
}

// Fold returns the state of a set of records, in any order, with repeats allowed.
func Fold(recs ...Rec) *State {
	s := NewState()
	s.ApplyAll(recs)
	s.Stale = false // ApplyAll applies operations that set others aside first
	return s
}

// ApplyAll applies records as [State.Apply] does. It sorts once at the end: n records cost n log n whatever their
// stamps.
func (s *State) ApplyAll(recs []Rec) {
	for i := range recs {
		if _, _, is := recs[i].SetsAside(); is {
			s.apply(&recs[i], nil)
		}
	}
	later := bulk{tallies: map[*Tally]sorted{}, unknown: len(s.Unknown)}
	for i := range recs {
		if _, _, is := recs[i].SetsAside(); !is {
			s.apply(&recs[i], &later)
		}
	}
	for t, upTo := range later.tallies {
		t.Entries = settle(&s.work, t.Entries, upTo.entries)
		t.Counts = settle(&s.work, t.Counts, upTo.counts)
	}
	s.Unknown = settle(&s.work, s.Unknown, later.unknown)
}

// Apply applies one record to the state. Applying it again changes nothing.
func (s *State) Apply(r Rec) { s.apply(&r, nil) }

// apply applies a record. With later it only appends to sorted lists, which ApplyAll sorts afterwards.
func (s *State) apply(r *Rec, later *bulk) {
	if !r.Pending() {
		if s.First == 0 || r.Effective < s.First {
			s.First = r.Effective
		}
		s.Last = max(s.Last, r.Effective)
	}
	if !s.counts(r) {
		return
	}
	switch r.Kind {
	case Set:
		_, _, is := r.SetsAside()
		before := is && s.aside(r.Entity)
		s.set(*r)
		if is && s.aside(r.Entity) != before {
			s.Stale = true
		}
	case Add:
		t, entry := s.tally(r.Entity), TallyEntry{r.Stamp(), r.Delta, r.Author, kindIn(r.Value)}
		if later.holds(t) {
			t.Entries = append(t.Entries, entry)
			return
		}
		t.Entries = insert(&s.work, t.Entries, entry)
	case Undo:
		t := s.tally(r.Entity)
		if by, known := t.Undone[r.Field]; !known || less(r.Author, by) {
			t.Undone[r.Field] = r.Author
		}
	case Stocktake:
		var c Counted
		if json.Unmarshal(r.Value, &c) != nil {
			return
		}
		t, entry := s.tally(r.Entity), CountEntry{r.Stamp(), c, r.Author}
		if later.holds(t) {
			t.Counts = append(t.Counts, entry)
			return
		}
		t.Counts = insert(&s.work, t.Counts, entry)
	default:
		if later != nil {
			s.Unknown = append(s.Unknown, *r)
			return
		}
		s.Unknown = insert(&s.work, s.Unknown, *r)
	}
}

func (s *State) set(r Rec) {
	fields := s.Registers[r.Entity]
	if fields == nil {
		fields = map[string]*Register{}
		s.Registers[r.Entity] = fields
	}
	reg := fields[r.Field]
	if reg == nil {
		reg = &Register{}
		fields[r.Field] = reg
	}
	at := sort.Search(len(reg.Readings), func(i int) bool { return !r.Stamp().Less(reg.Readings[i].Stamp) })
	if at < len(reg.Readings) && reg.Readings[at].ID == r.ID {
		return
	}
	reg.Readings = append(reg.Readings, Reading{})
	copy(reg.Readings[at+1:], reg.Readings[at:])
	reg.Readings[at] = Reading{r.Stamp(), r.Value, r.Author, nil}
	if r.Field == "note" {
		if reg.Readings[at].Saw = r.Parents; len(r.Parents) == 0 {
			reg.Readings[at].Saw = []string{""}
		}
	}
	if len(reg.Readings) > 1+losersKept {
		reg.Readings = reg.Readings[:1+losersKept]
	}
}

func (s *State) tally(entity string) *Tally {
	t := s.Tallies[entity]
	if t == nil {
		t = &Tally{}
		s.Tallies[entity] = t
	}
	if t.Undone == nil {
		t.Undone = map[string]Author{}
	}
	return t
}

func less(a, b Author) bool {
	if a.Role != b.Role {
		return a.Role < b.Role
	}
	if a.Name != b.Name {
		return a.Name < b.Name
	}
	return a.Link < b.Link
}

// Register returns the register of an entity's field; the zero Register if nothing was ever set.
func (s *State) Register(entity, field string) Register {
	if reg := s.Registers[entity][field]; reg != nil {
		return *reg
	}
	return Register{}
}

// Tally returns the tally of an entity, empty if nothing was ever added.
func (s *State) Tally(entity string) *Tally {
	if t := s.Tallies[entity]; t != nil {
		return t
	}
	return &Tally{}
}

// Entities lists the entities of a noun that have registers, sorted; removed ones included.
func (s *State) Entities(noun string) []string {
	var found []string
	for entity := range s.Registers {
		if strings.HasPrefix(entity, noun+"/") {
			found = append(found, entity)
		}
	}
	slices.Sort(found)
	return found
}

// Removed reports whether the entity's removal register stands at true.
func (s *State) Removed(entity string) bool {
	return string(s.Register(entity, "removed").Value()) == "true"
}

// Clone returns a deep copy.
func (s *State) Clone() *State {
	c := &State{Registers: make(map[string]map[string]*Register, len(s.Registers)),
		Tallies: make(map[string]*Tally, len(s.Tallies)), Unknown: append([]Rec(nil), s.Unknown...), First: s.First,
		Last: s.Last, Stale: s.Stale}
	for entity, fields := range s.Registers {
		copied := make(map[string]*Register, len(fields))
		for field, reg := range fields {
			copied[field] = &Register{append([]Reading(nil), reg.Readings...)}
		}
		c.Registers[entity] = copied
	}
	for entity, t := range s.Tallies {
		undone := make(map[string]Author, len(t.Undone))
		for id, by := range t.Undone {
			undone[id] = by
		}
		c.Tallies[entity] = &Tally{append([]TallyEntry(nil), t.Entries...), undone, append([]CountEntry(nil), t.Counts...)}
	}
	return c
}
