package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// madeByKind adds to the cards that make clusters how many of each kind are made, where somebody counted by kind.
func madeByKind(j job.Job, pieces []count.PieceCount, cards []task.Card) {
	for i := range cards {
		c := &cards[i]
		tally := j.State.Tally(c.Key)
		if !byKind(tally) {
			continue
		}
		for k := range pieces {
			if layer, makes := pieces[k].LayerOf(c.Key); makes {
				laid, _ := pieces[k].LaidOf(layer)
				c.ByKind = tally.ByKind(laid.Keys())
			}
		}
	}
}

// byKind reports whether any addition says its kind.
func byKind(t *job.Tally) bool {
	for i := range t.Entries {
		if t.Entries[i].Of != "" {
			return true
		}
	}
	return false
}

// Made is how far the clusters of a piece's base are, or of a layer on it.
type Made struct {
	ByKind []int  // tallied by kind, over all cards that make them, no more than wanted; nil: none by kind
	Filled []bool // which clusters are made, in building order
	Total  int    // made, perhaps more than wanted
}

// Made returns how far a layer of a piece is, see [count.PieceCount.LaidOf].
func (p *Plan) Made(c *count.PieceCount, layer int) Made {
	laid, makers := c.LaidOf(layer)
	m := Made{}
	for i := range p.Cards {
		card := &p.Cards[i]
		if card.Key != makers[0] && card.Key != makers[1] {
			continue
		}
		n := card.Made
		if card.Done {
			n = max(n, card.Count)
			if card.Count == 0 {
				n = len(laid.Deals)
			}
		}
		m.Total += n
		if card.ByKind != nil && m.ByKind == nil {
			m.ByKind = make([]int, len(laid.Kinds))
		}
		for kind, n := range card.ByKind {
			m.ByKind[kind] = min(m.ByKind[kind]+n, laid.Kinds[kind].Clusters)
		}
	}
	m.Filled = laid.Fill(m.ByKind, m.Total)
	return m
}

// Plain returns how many were made without a kind, or more of a kind than wanted, or of kinds that are no longer.
func (m *Made) Plain() int {
	n := m.Total
	for _, of := range m.ByKind {
		n -= of
	}
	return n
}
