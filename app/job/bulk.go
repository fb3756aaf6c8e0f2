package job

import (
	"sort"

	"garlandry/calc/stable"
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

// places is the stamps of a list, compared and counted for a state.
type places struct {
	*work
	at func(i int) Stamp
}

func (p places) compare(a, b Stamp) int {
	p.compared++
	return a.Compare(b)
}

// find is where a stamp belongs among the first n.
func (p places) find(n int, stamp Stamp) int {
	return sort.Search(n, func(i int) bool { return p.compare(p.at(i), stamp) >= 0 })
}

func placesIn[T stamped](w *work, list []T) places {
	return places{w, func(i int) Stamp { return list[i].place() }}
}

// insert puts an entry in its place in stamp order, once.
func insert[T stamped](w *work, list []T, entry T) []T {
	stamp := entry.place()
	at := placesIn(w, list).find(len(list), stamp)
	if at < len(list) && list[at].place().ID == stamp.ID {
		return list
	}
	w.moved += len(list) + 1 - at
	list = append(list, entry)
	copy(list[at+1:], list[at:])
	list[at] = entry
	return list
}

// settle merges the entries from an index on into those before it, which are in stamp order, and drops repeats.
func settle[T stamped](w *work, list []T, from int) []T {
	at, order := placesIn(w, list).merge(from, len(list))
	merged := make([]T, len(order))
	for i, was := range order {
		merged[i] = list[was]
	}
	return append(list[:at], merged...)
}

// merge merges the stamps from an index on into those before it, which are in order. It returns the index where the
// first of them belongs, and the order of the stamps from there on, without repeats.
func (p places) merge(from, end int) (at int, order []int) {
	if from == end {
		return end, nil
	}
	more := make([]int, 0, end-from)
	for i := from; i < end; i++ {
		more = append(more, i)
	}
	stable.Sort(more, func(i, j int) int { return p.compare(p.at(i), p.at(j)) })
	at = p.find(from, p.at(more[0]))
	p.moved += end - at
	order = make([]int, 0, end-at)
	had := at
	for _, entry := range more {
		for ; had < from && p.compare(p.at(entry), p.at(had)) >= 0; had++ {
			order = append(order, had)
		}
		if len(order) == 0 || p.at(order[len(order)-1]) != p.at(entry) {
			order = append(order, entry)
		}
	}
	for ; had < from; had++ {
		order = append(order, had)
	}
	return at, order
}
