package look

import "garlandry/app/job"

// Lengths of a room without places for its pieces.
const (
	gapMM  = 250.0  // between two pieces
	hungMM = 1900.0 // from the floor to what hangs
)

// apartMM is how far each piece is drawn in front of the one before it in a room where they may overlap. No piece is as
// thick.
const apartMM = 100e3

// Hall is a room without its pieces.
type Hall struct {
	WidthMM, HeightMM float64 // 0: not known
	Boxes             []job.Box
}

// Placed is a piece that goes into a room, and what was said about its place: the middle along the floor from the
// room's left, and the lowest point above the floor. Nil: it is placed automatically.
type Placed struct {
	Entity, Name string
	Look         *Look
	AtMM, UpMM   *float64
}

// Area is a rectangle of a room, in its millimetres.
type Area struct{ LeftMM, RightMM, BottomMM, TopMM float64 }

// MiddleMM returns the middle along the floor.
func (a Area) MiddleMM() float64 { return (a.LeftMM + a.RightMM) / 2 }

// moved returns the area at another place.
func (a Area) moved(acrossMM, upMM float64) Area {
	return Area{a.LeftMM + acrossMM, a.RightMM + acrossMM, a.BottomMM + upMM, a.TopMM + upMM}
}

// Item is a piece or a box of a room, where it is.
type Item struct {
	Entity, Name string
	Area
	Itself bool // along the floor it is placed automatically
}

// Room returns a look with all pieces over one floor. What has a place stands there; where that overlaps, a later piece
// stands in front of an earlier one. The others keep clear of it, of doors and of each other: what stands in a row, in
// order, and what hangs above lower pieces, or behind the row. It returns nil for no pieces.
func Room(pieces []Placed, hall Hall) *Look {
	if len(pieces) == 0 {
		return nil
	}
	room := &Look{Stands: true, Hall: &hall}
	areas := places(pieces, &hall)
	apart := 0.0
	for i := range pieces {
		p := &pieces[i]
		if p.AtMM != nil {
			apart = apartMM
		}
		room.Items = append(room.Items, Item{p.Entity, p.Name, areas[i], p.AtMM == nil})
	}
	for i := range pieces {
		room.place(pieces[i].Look, areas[i], i, float64(apart*float64(i)))
	}
	room.close()
	for i := range hall.Boxes {
		b := &hall.Boxes[i]
		a := AreaOf(b)
		room.Items = append(room.Items, Item{"box/" + b.ID, b.Name, a, false})
		room.reach(a.LeftMM, a.BottomMM, false)
		room.reach(a.RightMM, a.TopMM, false)
	}
	return room
}

// AreaOf returns where a box is.
func AreaOf(b *job.Box) Area {
	return Area{b.AtMM - b.WidthMM/2, b.AtMM + b.WidthMM/2, b.UpMM, b.UpMM + b.HeightMM}
}

// Item returns the piece or box of that entity.
func (l *Look) Item(entity string) (Item, bool) {
	if l != nil {
		for _, item := range l.Items {
			if item.Entity == entity {
				return item, true
			}
		}
	}
	return Item{}, false
}

// places finds a place for each piece.
func places(pieces []Placed, hall *Hall) []Area {
	areas, open := make([]Area, len(pieces)), make([]bool, len(pieces))
	at := 0.0
	for i := range pieces {
		l := pieces[i].Look
		areas[i], open[i] = Area{0, l.RightMM - l.LeftMM, l.BottomMM, l.TopMM}, true
		if l.Stands {
			areas[i] = areas[i].moved(at, 0)
			at = areas[i].RightMM + gapMM
		} else {
			areas[i] = areas[i].moved(0, hungAt(l, hall)-l.BottomMM)
		}
	}
	settle(pieces, areas, open, nil)
	said := false
	var taken []Area
	for i := range hall.Boxes {
		if b := &hall.Boxes[i]; b.Kind == "door" {
			taken, said = append(taken, AreaOf(b)), true
		}
	}
	for i := range pieces {
		p := &pieces[i]
		if p.UpMM != nil {
			areas[i], said = areas[i].moved(0, *p.UpMM-areas[i].BottomMM), true
		}
		if p.AtMM != nil {
			areas[i], said, open[i] = areas[i].moved(*p.AtMM-areas[i].MiddleMM(), 0), true, false
			taken = append(taken, areas[i])
		}
	}
	if said {
		settle(pieces, areas, open, taken)
	}
	return areas
}

// hungAt returns how high above the floor the lowest point of a piece that hangs is, where the room is high enough.
func hungAt(l *Look, hall *Hall) float64 {
	if hall.HeightMM <= 0 {
		return hungMM
	}
	return max(0, min(hungMM, hall.HeightMM-(l.TopMM-l.BottomMM)))
}

// settle moves pieces that may move to the right until they are clear of what is there: first what stands, then what
// hangs.
func settle(pieces []Placed, areas []Area, may []bool, taken []Area) {
	for _, stands := range [...]bool{true, false} {
		for i := range pieces {
			if may[i] && pieces[i].Look.Stands == stands {
				areas[i] = clearOf(taken, areas[i])
				taken = append(taken, areas[i])
			}
		}
	}
}

// clearOf returns the first place from where an area is to the right that is clear of what is there.
func clearOf(taken []Area, a Area) Area {
	for moved := true; moved; {
		moved = false
		for _, t := range taken {
			if t.LeftMM < a.RightMM+gapMM && t.RightMM+gapMM > a.LeftMM &&
				t.TopMM+gapMM > a.BottomMM && t.BottomMM < a.TopMM+gapMM {
				a, moved = Area{t.RightMM + gapMM, t.RightMM + gapMM + (a.RightMM - a.LeftMM), a.BottomMM, a.TopMM}, true
			}
		}
	}
	return a
}

// place copies a piece to its place, so far in front of the floor line.
func (l *Look) place(piece *Look, at Area, as int, frontMM float64) {
	across, up := at.LeftMM-piece.LeftMM, at.BottomMM-piece.BottomMM
	colours := make([]int, len(piece.Colours))
	for i, c := range piece.Colours {
		colours[i] = l.colour(c)
	}
	for _, b := range piece.Balloons {
		b.XMM, b.YMM, b.Colour = b.XMM+across, b.YMM+up, colours[b.Colour]
		b.DepthMM, b.Piece = b.DepthMM+frontMM, as
		l.Balloons = append(l.Balloons, b)
	}
	for _, line := range piece.Lines {
		moved := Line{make([]float64, len(line.Points)), line.ThickMM, as}
		for i, p := range line.Points {
			moved.Points[i] = p + across
			if i%2 == 1 {
				moved.Points[i] = p + up
			}
		}
		l.Lines = append(l.Lines, moved)
	}
	l.Clusters += piece.Clusters
}

// colour returns the place of a colour, which it adds if it is new.
func (l *Look) colour(c job.Colour) int {
	for i := range l.Colours {
		if l.Colours[i].ID == c.ID {
			return i
		}
	}
	l.Colours = append(l.Colours, c)
	return len(l.Colours) - 1
}
