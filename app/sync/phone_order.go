package sync

import "garlandry/calc/order"

// sortOut puts the outbox into the order its operations were made in, told by their numbers, which go on whatever happens
// to the device id. Operations that come back from a journal, or from a tab whose storage was emptied, stand behind later
// ones: shown and sent that way, an earlier value would overrule the one that was made in its sight.
func (p *Phone) sortOut(w *writing, l *phoneLog) {
	sorted := true
	for i := 1; i < len(l.out); i++ {
		sorted = sorted && l.out[i-1].Op.Number <= l.out[i].Op.Number
	}
	if sorted {
		return
	}
	order.By(l.out, func(a, b int) bool { return l.out[a].Op.Number < l.out[b].Op.Number })
	for _, row := range l.out {
		w.delete(keyOut(l.id, row.order))
		row.order = p.nextOrder()
		w.put(keyOut(l.id, row.order), row)
	}
	if l.view != nil && l.accepted != nil {
		l.layOver(p.author)
	}
}
