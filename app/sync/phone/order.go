package phone

import (
	"cmp"
	"slices"
)

// sortOut puts the outbox into an order in which nothing stands before what its author had in sight: each operation
// after its parents, and after those of its device with lower numbers. Operations that come back from a journal, or
// from a tab whose storage was emptied, stand behind later ones: shown and sent that way, an earlier value would
// overrule the one that was made upon it.
func (p *Phone) sortOut(w *writing, l *phoneLog) {
	s := sorting{byID: map[string]*outRow{}, byDevice: map[string][]*outRow{}, done: map[*outRow]bool{}}
	for _, row := range l.out {
		s.byID[row.Op.ID] = row
		s.byDevice[row.Op.Device] = append(s.byDevice[row.Op.Device], row)
	}
	for _, own := range s.byDevice {
		slices.SortStableFunc(own, func(a, b *outRow) int { return cmp.Compare(a.Op.Number, b.Op.Number) })
	}
	moved := false
	for i, row := range l.out {
		s.visit(row)
		moved = moved || s.sorted[i] != row
	}
	if !moved {
		return
	}
	l.out = s.sorted
	for _, row := range l.out {
		w.delete(keyOut(l.id, row.order))
		row.order = p.nextOrder()
		w.put(keyOut(l.id, row.order), row)
	}
	if l.view != nil && l.accepted != nil {
		l.layOver(p.author)
	}
}

// sorting is an outbox being sorted.
type sorting struct {
	byID     map[string]*outRow
	byDevice map[string][]*outRow // by number; those that are sorted have left
	done     map[*outRow]bool
	sorted   []*outRow
}

// visit takes the row into the order, after what has to stand before it.
func (s *sorting) visit(row *outRow) {
	for !s.done[row] {
		own := s.byDevice[row.Op.Device]
		next := own[0]
		s.byDevice[row.Op.Device] = own[1:]
		s.done[next] = true // also where forged parents run in a circle
		for _, id := range next.Op.Parents {
			if parent := s.byID[id]; parent != nil {
				s.visit(parent)
			}
		}
		s.sorted = append(s.sorted, next)
	}
}
