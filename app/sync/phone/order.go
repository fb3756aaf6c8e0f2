package phone

import (
	"cmp"

	"garlandry/calc/stable"
)

// sortOut sorts the outbox by cause: each operation follows its parents, and the operations of its device with lower
// numbers. Operations that return from a journal, or from a tab whose storage was cleared, are added behind later ones.
// Sent in that order, an earlier value would overrule a later one.
func (p *Phone) sortOut(w *writing, l *phoneLog) {
	s := sorting{byID: map[string]*outRow{}, byDevice: map[string][]*outRow{}, done: map[*outRow]bool{}}
	for _, row := range l.out {
		s.byID[row.Op.ID] = row
		s.byDevice[row.Op.Device] = append(s.byDevice[row.Op.Device], row)
	}
	for _, own := range s.byDevice {
		stable.Sort(own, func(a, b *outRow) int { return cmp.Compare(a.Op.Number, b.Op.Number) })
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
		l.rebuildView(p.author)
	}
}

// sorting is an outbox being sorted.
type sorting struct {
	byID     map[string]*outRow
	byDevice map[string][]*outRow // by number; without the rows that are sorted
	done     map[*outRow]bool
	sorted   []*outRow
}

// visit appends the row, after everything that must precede it.
func (s *sorting) visit(row *outRow) {
	for !s.done[row] {
		own := s.byDevice[row.Op.Device]
		next := own[0]
		s.byDevice[row.Op.Device] = own[1:]
		s.done[next] = true // before the parents, as forged ones may form a cycle
		for _, id := range next.Op.Parents {
			if parent := s.byID[id]; parent != nil {
				s.visit(parent)
			}
		}
		s.sorted = append(s.sorted, next)
	}
}
