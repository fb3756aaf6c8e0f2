package plan

import (
	"math"
	"strconv"
	"strings"
	"sync"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
)

// looks computes what pieces look like when that is first asked for, since it takes longer than counting. It may be
// used by several at once.
type looks struct {
	how  look.Figures
	hall look.Hall

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

// Look returns what a counted piece of the plan looks like, with at most that many balloons; 0 means all. It is nil
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

// mostOnCover is the most pieces on a cover: with more, the balloons of a thumbnail are too few to show their shapes.
const mostOnCover = 4

// Cover returns the looks of the largest pieces side by side on one floor, with at most that many balloons. Each piece
// keeps balloons in proportion to the square root of how many it has, so that none is lost among larger
// ones. It calls pause after each.
func (p *Plan) Cover(most int, pause func()) *look.Look {
	if p.looks == nil {
		return nil
	}
	roots := 0.0
	largest := p.largest(mostOnCover)
	for _, c := range largest {
		roots += math.Sqrt(float64(c.Balloons))
	}
	var all []look.Placed
	for _, c := range largest {
		share := float64(most) * math.Sqrt(float64(c.Balloons)) / max(roots, 1)
		if l := p.Look(c, max(1, int(share))); l != nil {
			all = append(all, look.Placed{Entity: "piece/" + c.Piece.ID, Look: l})
		}
		pause()
	}
	return look.Room(all, look.Hall{}).Fewer(most)
}

// largest returns the pieces with a look whose balloons cover most, in the order of the job.
func (p *Plan) largest(most int) []*count.PieceCount {
	covers := make([]float64, len(p.Pieces))
	for i := range p.Pieces {
		for _, b := range p.Pieces[i].By {
			covers[i] += float64(float64(b.Count) * (b.ToIn * b.ToIn))
		}
	}
	var list []*count.PieceCount
	for i := range p.Pieces {
		larger := 0
		for k := range covers {
			if p.Pieces[k].Balloons <= look.MostDrawn && (covers[k] > covers[i] || covers[k] == covers[i] && k < i) {
				larger++
			}
		}
		if c := &p.Pieces[i]; c.Balloons > 0 && c.Balloons <= look.MostDrawn && larger < most {
			list = append(list, c)
		}
	}
	return list
}

// Room returns the looks of all pieces on one floor, with at most that many balloons; 0 means all. It is nil if there
// are none.
func (p *Plan) Room(most int) *look.Look {
	if p.looks == nil {
		return nil
	}
	p.looks.mu.Lock()
	defer p.looks.mu.Unlock()
	return p.room(most)
}

func (p *Plan) room(most int) *look.Look {
	return p.looks.once(strconv.Itoa(most), func() *look.Look {
		if most > 0 {
			return p.room(0).Fewer(most)
		}
		var all []look.Placed
		for i := range p.Pieces {
			c := &p.Pieces[i].Piece
			if l := p.look(&p.Pieces[i], 0); l != nil {
				all = append(all, look.Placed{Entity: "piece/" + c.ID, Name: c.Name, Look: l, AtMM: c.AtMM, UpMM: c.UpMM})
			}
		}
		return look.Room(all, p.looks.hall)
	})
}

// placedAs returns the plan of a job from that of the same job with other places. It keeps the looks of the pieces, but
// not those of the room. The plan must not have the notes about the room yet.
func (p Plan) placedAs(j job.Job) Plan {
	was := p.looks
	was.mu.Lock()
	defer was.mu.Unlock()
	p.looks = &looks{how: was.how, hall: hallOf(j), done: map[string]*look.Look{}}
	for key, l := range was.done {
		if strings.Contains(key, "/") { // of a piece
			p.looks.done[key] = l
		}
	}
	p.Pieces = append([]count.PieceCount(nil), p.Pieces...)
	for i := range p.Pieces {
		p.Pieces[i].Piece.AtMM, p.Pieces[i].Piece.UpMM = j.Pieces[i].AtMM, j.Pieces[i].UpMM
	}
	return p
}

// hallOf returns the room of a job, without its pieces.
func hallOf(j job.Job) look.Hall {
	return look.Hall{WidthMM: j.Brief.RoomWidthMM, HeightMM: j.Brief.RoomHeightMM, Boxes: j.Boxes}
}
