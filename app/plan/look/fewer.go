package look

import (
	"cmp"
	"math"

	"garlandry/calc/stable"
)

// fineness is the number of raster points along the longer side of a look, when it is seen which balloons matter.
const fineness = 160

// mostGrown is the most that a balloon grows to cover for hidden ones that are left out.
const mostGrown = 1.3

// Fewer returns the look with at most so many balloons, 0 for all: those of which the most is seen. They grow a little,
// so that the piece stays closed. A look that has no more is returned as it is, nil too.
func (l *Look) Fewer(most int) *Look {
	if l == nil || len(l.Balloons) <= most || most < 1 {
		return l
	}
	seen := l.seen()
	order := make([]int, len(seen))
	all := 0
	for i, points := range seen {
		order[i] = i
		all += points
	}
	stable.Sort(order, func(a, b int) int { return cmp.Compare(seen[b], seen[a]) })
	kept, left := 0, most
	keep, have := make([]bool, len(seen)), make([]int, max(1, len(l.Items)))
	for _, each := range [...]int{most / 2 / len(have), most} { // none of a room's pieces goes missing
		for _, i := range order {
			if piece := l.Balloons[i].Piece; !keep[i] && left > 0 && have[piece] < each {
				keep[i] = true
				kept, have[piece], left = kept+seen[i], have[piece]+1, left-1
			}
		}
	}
	grow := min(math.Sqrt(float64(all)/float64(max(1, kept))), mostGrown)
	fewer := *l
	fewer.Balloons = make([]Balloon, 0, most)
	for i, b := range l.Balloons {
		if keep[i] {
			b.RadiusMM = float64(b.RadiusMM * grow)
			fewer.Balloons = append(fewer.Balloons, b)
		}
	}
	return &fewer
}

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
