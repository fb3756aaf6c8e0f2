package job

import "encoding/json"

// Change is a wanted change: an operation without device, id and time. The zero Kind means [Set].
type Change struct {
	Kind   Kind
	Entity string
	Field  string
	Value  json.RawMessage
	Delta  int64
}

// Put makes the change that sets a field to a value. A value that cannot be written as JSON becomes null.
func Put(entity, field string, value any) Change {
	raw, err := json.Marshal(value)
	if err != nil {
		raw = json.RawMessage("null")
	}
	return Change{Kind: Set, Entity: entity, Field: field, Value: raw}
}

// Count makes the change that adds to a tally.
func Count(entity string, delta int64) Change { return Change{Kind: Add, Entity: entity, Delta: delta} }

// TakeBack makes the change that undoes one addition to a tally.
func TakeBack(entity, op string) Change { return Change{Kind: Undo, Entity: entity, Field: op} }

// Counts makes the changes that add to a tally, each within the limit of one addition; none for 0.
func Counts(entity string, delta int64) []Change {
	var changes []Change
	for delta != 0 {
		step := min(max(delta, -maxDelta), maxDelta)
		changes = append(changes, Count(entity, step))
		delta -= step
	}
	return changes
}

// CountedAs makes the changes that set a tally to a count by eye, which replaces all its additions in the state. If
// there are more than [MaxCovers], it adds the difference to the total instead.
func CountedAs(s *State, entity string, n int64) []Change {
	c := Counted{N: n}
	t := s.Tally(entity)
	for _, e := range t.Entries {
		c.Covers = append(c.Covers, e.ID)
	}
	if len(c.Covers) > MaxCovers {
		return Counts(entity, n-t.Total())
	}
	change := Put(entity, "", c)
	change.Kind = Stocktake
	return []Change{change}
}

// OpWriter turns changes into operations of one device: it adds ids, numbers, times and causal parents. Clock and ids
// come from outside. Store Number, LastWall and Counter with the operations, in one transaction.
type OpWriter struct {
	Device   string
	Number   uint64 // of the last operation made
	LastWall int64  // the highest clock reading used
	Counter  uint32
	Now      func() int64  // Unix milliseconds
	NewID    func() string // 128 random bits as text
}

// Write makes the operation for a change, given the state that its author saw. If the clock stands still or goes back,
// the counter goes up instead.
func (w *OpWriter) Write(s *State, c Change) Op {
	now := w.Now()
	if now > w.LastWall {
		w.LastWall, w.Counter = now, 0
	} else {
		w.Counter++
	}
	w.Number++
	kind := c.Kind
	if kind == "" {
		kind = Set
	}
	return Op{ID: w.NewID(), Device: w.Device, Number: w.Number, Version: Version, Kind: kind,
		Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta, Wall: now, Counter: w.Counter,
		Parents: parents(s, kind, c.Entity, c.Field)}
}

// parents lists what the author had seen of the register: the accepted value, and their own unsent one.
func parents(s *State, kind Kind, entity, field string) []string {
	if s == nil {
		return nil
	}
	var seen []string
	if kind == Set {
		readings := s.Register(entity, field).Readings
		for i, r := range readings {
			if i == 0 || (readings[0].Pending() && !r.Pending()) {
				seen = append(seen, r.ID)
			}
			if !r.Pending() {
				break
			}
		}
	}
	if kind == Stocktake {
		if counts := s.Tally(entity).Counts; len(counts) > 0 {
			seen = append(seen, counts[len(counts)-1].ID)
		}
	}
	return seen
}
