package plan

import (
	"sync"

	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
)

// looks computes what pieces look like when that is first asked for, since it takes longer than counting. It may be
// used by several at once.
type looks struct {
	how look.Figures

	mu   sync.Mutex
	done map[string]*look.Look // by id of the piece
}

// Look returns what a counted piece of the plan looks like, or nil if it has no balloons. Nobody may change it.
func (p *Plan) Look(c *count.PieceCount) *look.Look {
	l := p.looks
	if l == nil || c.Balloons == 0 {
		return nil
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	seen, known := l.done[c.Piece.ID]
	if !known {
		seen = look.Of(c, l.how)
		l.done[c.Piece.ID] = seen
	}
	return seen
}

// Room returns the looks of all pieces beside one another, or nil if there are no balloons.
func (p *Plan) Room() *look.Look {
	var all []*look.Look
	for i := range p.Pieces {
		if l := p.Look(&p.Pieces[i]); l != nil {
			all = append(all, l)
		}
	}
	return look.Beside(all)
}
