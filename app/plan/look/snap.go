package look

import "math"

// snapMM is how near a dragged thing must come to a neighbour, a wall, the floor to go there. A choice of ours.
const snapMM = 100

// Snap returns where a dragged piece or box comes to rest: the middle along the floor and the lower edge, both to the
// millimetre. Its edges go to edges of other things and to walls, its middle to their middles and the room's, its foot
// to the floor or on top of a box, its top to the ceiling, each if that is within 100 mm.
func (l *Look) Snap(entity string, a Area) (atMM, upMM float64) {
	across, up := nearest{}, nearest{}
	if l.Hall.WidthMM > 0 {
		across.try(-a.LeftMM)
		across.try(l.Hall.WidthMM - a.RightMM)
		across.try(l.Hall.WidthMM/2 - a.MiddleMM())
	}
	for _, other := range l.Items {
		if other.Entity == entity {
			continue
		}
		for _, edge := range [...]float64{other.LeftMM, other.RightMM} {
			across.try(edge - a.LeftMM)
			across.try(edge - a.RightMM)
		}
		across.try(other.MiddleMM() - a.MiddleMM())
	}
	up.try(-a.BottomMM)
	if l.Hall.HeightMM > 0 {
		up.try(l.Hall.HeightMM - a.TopMM)
	}
	for i := range l.Hall.Boxes {
		box := &l.Hall.Boxes[i]
		if b := AreaOf(box); "box/"+box.ID != entity && b.LeftMM < a.RightMM && b.RightMM > a.LeftMM {
			up.try(b.TopMM - a.BottomMM)
		}
	}
	return math.Round(a.MiddleMM() + across.mm), math.Round(a.BottomMM + up.mm)
}

// nearest is the shortest way to one of several places.
type nearest struct {
	mm    float64
	found bool
}

func (n *nearest) try(mm float64) {
	if away := math.Abs(mm); away <= snapMM && (!n.found || away < math.Abs(n.mm)) {
		n.mm, n.found = mm, true
	}
}

// Covers counts the balloons of a room's item that are in front of an area. Those that only touch its edge are left
// out.
func (l *Look) Covers(item int, a Area) (n int) {
	const edgeMM = 50 // as far as a balloon gives way
	for i := range l.Balloons {
		b := &l.Balloons[i]
		x := b.XMM - max(a.LeftMM, min(b.XMM, a.RightMM))
		y := b.YMM - max(a.BottomMM, min(b.YMM, a.TopMM))
		r := max(0, b.RadiusMM-edgeMM)
		if b.Piece == item && float64(x*x)+float64(y*y) < float64(r*r) {
			n++
		}
	}
	return n
}
