package plan

import (
	"math"
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

// Cover returns the looks of all pieces on one floor, of at most so many balloons: of each piece in proportion to the
// square root of how many it has, so that none is lost among larger ones. It calls pause after each piece.
func (p *Plan) Cover(most int, pause func()) *look.Look {
	roots := 0.0
	for i := range p.Pieces {
		if n := p.Pieces[i].Balloons; n <= look.MostDrawn {
			roots += math.Sqrt(float64(n))
		}
	}
	var all []*look.Look
	for i := range p.Pieces {
		c := &p.Pieces[i]
		share := float64(most) * math.Sqrt(float64(c.Balloons)) / max(roots, 1)
		if l := p.Look(c, max(1, int(share))); l != nil {
			all = append(all, l)
		}
		pause()
	}
	return look.Beside(all).Fewer(most)
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
