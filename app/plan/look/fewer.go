package look

import (
	"cmp"
	"math"

	"garlandry/calc/stable"
)

// fineness is the number of raster points along the longer side of a look, when it is seen which balloons matter.
const fineness = 160

// How much a balloon grows at most to cover for those that are left out: in a thumbnail far more than in a picture.
const (
	mostGrown      = 1.3
	mostGrownSmall = 2.4
	thumbnail      = 60 // the most balloons of one
)

// Fewer returns the look with at most that many balloons, those of which the most is seen; 0 means all. They grow, so
// that each piece stays closed. A look with fewer is returned unchanged, and so is nil.
func (l *Look) Fewer(most int) *Look {
	if l == nil || len(l.Balloons) <= most || most < 1 {
		return l
	}
	seen := l.seen()
	keep := l.mostSeen(seen, most)
	all, shown := make([]int, max(1, len(l.Items))), make([]int, max(1, len(l.Items))) // points, by piece
	for i, points := range seen {
		piece := l.Balloons[i].Piece
		all[piece] += points
		if keep[i] {
			shown[piece] += points
		}
	}
	limit := mostGrown
	if most <= thumbnail {
		limit = mostGrownSmall
	}
	fewer := *l
	fewer.Balloons = make([]Balloon, 0, most)
	for i, b := range l.Balloons {
		if keep[i] {
			grow := math.Sqrt(float64(all[b.Piece]) / float64(max(1, shown[b.Piece])))
			b.RadiusMM = float64(b.RadiusMM * min(grow, limit))
			fewer.Balloons = append(fewer.Balloons, b)
		}
	}
	return &fewer
}

// mostSeen picks the balloons of which the most is seen, and some of each piece of a room.
func (l *Look) mostSeen(seen []int, most int) []bool {
	order := make([]int, len(seen))
	for i := range order {
		order[i] = i
	}
	stable.Sort(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(seen[b], seen[a]), cmp.Compare(spread(a), spread(b)))
	})
	left := most
	keep, have := make([]bool, len(seen)), make([]int, max(1, len(l.Items)))
	for _, each := range [...]int{most / 2 / len(have), most} {
		for _, i := range order {
			if piece := l.Balloons[i].Piece; !keep[i] && left > 0 && have[piece] < each {
				keep[i] = true
				have[piece], left = have[piece]+1, left-1
			}
		}
	}
	return keep
}

// spread orders balloons that are seen equally, so that those left out are not all of the last pieces. It multiplies by
// the golden ratio, which spreads numbers in a row evenly.
func spread(i int) uint32 { return uint32(i) * 2654435769 }

// seen counts the raster points at which each balloon is in front.
func (l *Look) seen() []int {
	step := max(l.RightMM-l.LeftMM, l.TopMM-l.BottomMM) / fineness
	wide, high := int((l.RightMM-l.LeftMM)/step)+1, int((l.TopMM-l.BottomMM)/step)+1
	front := make([]int32, wide*high) // one more than the place of the balloon in front
	for i := range l.Balloons {
		b := &l.Balloons[i]
		for row := max(0, int((b.YMM-b.RadiusMM-l.BottomMM)/step)); row < high; row++ {
			off := l.BottomMM + float64((float64(row)+0.5)*step) - b.YMM
			if off > b.RadiusMM {
				break
			}
			half := math.Sqrt(max(0, float64(b.RadiusMM*b.RadiusMM)-float64(off*off)))
			from, to := int((b.XMM-half-l.LeftMM)/step+0.5), int((b.XMM+half-l.LeftMM)/step+0.5)
			for column := max(0, from); column < min(wide, to); column++ {
				front[row*wide+column] = int32(i) + 1
			}
		}
	}
	seen := make([]int, len(l.Balloons))
	for _, i := range front {
		if i > 0 {
			seen[i-1]++
		}
	}
	return seen
}
