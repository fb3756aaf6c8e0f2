package plan

import (
	"strconv"
	"sync"

	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
)

// looks computes what pieces look like when that is first asked for, since it takes longer than counting. It may be
// used by several at once.
type looks struct {
	how look.Figures

	mu   sync.Mutex
	done map[string]*look.Look
}

// once returns what was computed under the key, or computes it.
func (l *looks) once(key string, compute func() *look.Look) *look.Look {
	seen, known := l.done[key]
	if !known {
		seen = compute()
		l.done[key] = seen
	}
	return seen
}

// Look returns what a counted piece of the plan looks like, of at most so many balloons, 0 for all of them. It is nil
// if the piece has none, or more than [look.MostDrawn]. Nobody may change it.
func (p *Plan) Look(c *count.PieceCount, most int) *look.Look {
	if p.looks == nil || c.Balloons == 0 {
		return nil
	}
	p.looks.mu.Lock()
	defer p.looks.mu.Unlock()
	return p.look(c, most)
}

func (p *Plan) look(c *count.PieceCount, most int) *look.Look {
	return p.looks.once(strconv.Itoa(most)+"/"+c.Piece.ID, func() *look.Look {
		if most == 0 {
			return look.Of(c, p.looks.how)
		}
		return p.look(c, 0).Fewer(most)
	})
}

// Room returns the looks of all pieces on one floor, of at most so many balloons, 0 for all of them. It is nil if there
// are none.
func (p *Plan) Room(most int) *look.Look {
	if p.looks == nil {
		return nil
	}
	p.looks.mu.Lock()
	defer p.looks.mu.Unlock()
	return p.looks.once(strconv.Itoa(most), func() *look.Look {
		var all []*look.Look
		for i := range p.Pieces {
			if l := p.look(&p.Pieces[i], 0); l != nil {
				all = append(all, l)
			}
		}
		return look.Beside(all).Fewer(most)
	})
}
