package job

import (
	"slices"
	"sort"
)

// bulk remembers how far the lists of a state were sorted before many records were applied.
type bulk struct {
	tallies map[*Tally]sorted
	unknown int
}

// sorted is how many entries at the beginning of a tally's lists are in order.
type sorted struct{ entries, counts int }

// holds marks the tally's lists to be sorted later. It returns false for a nil bulk.
func (b *bulk) holds(t *Tally) bool {
	if b == nil {
		return false
	}
	if _, known := b.tallies[t]; !known {
		b.tallies[t] = sorted{len(t.Entries), len(t.Counts)}
	}
	return true
}

// stamped is anything with a stamp.
type stamped interface{ place() Stamp }

func (r Rec) place() Stamp        { return r.Stamp() }
func (e TallyEntry) place() Stamp { return e.Stamp }
func (e CountEntry) place() Stamp { return e.Stamp }

func compare[T stamped](w *work, a, b T) int {
	w.compared++
	return a.place().Compare(b.place())
}

func before[T stamped](w *work, a, b T) bool { return compare(w, a, b) < 0 }

// insert puts an entry in its place in stamp order, once.
func insert[T stamped](w *work, list []T, entry T) []T {
	at := sort.Search(len(list), func(i int) bool { return !before(w, list[i], entry) })
	if at < len(list) && list[at].place().ID == entry.place().ID {
		return list
	}
	var zero T
	list = append(list, zero)
	w.moved += len(list) - at
	copy(list[at+1:], list[at:])
	list[at] = entry
	return list
}

// settle merges the entries from an index on into those before it, which are in stamp order, and drops repeats.
func settle[T stamped](w *work, list []T, from int) []T {
	if from == len(list) {
		return list
	}
	more := list[from:]
	w.moved += len(more)
	slices.SortStableFunc(more, func(a, b T) int { return compare(w, a, b) })
	at := sort.Search(from, func(i int) bool { return !before(w, list[i], more[0]) })
	had := append([]T(nil), list[at:from]...)
	w.moved += len(had)
	out := list[:at]
	for _, entry := range append([]T(nil), more...) {
		for len(had) > 0 && !before(w, entry, had[0]) {
			out, had = append(out, had[0]), had[1:]
		}
		if len(out) == 0 || out[len(out)-1].place() != entry.place() {
			out = append(out, entry)
		}
	}
	return append(out, had...)
}
