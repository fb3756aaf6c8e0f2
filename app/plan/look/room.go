package look

import "garlandry/app/job"

// Lengths of a room without places for its pieces.
const (
	gapMM  = 250.0  // between two pieces
	hungMM = 1900.0 // from the floor to what hangs
)

// Beside returns a look with all pieces over one floor: what stands in a row, in order, and what hangs above lower
// pieces, or behind the row. It returns nil for no pieces.
func Beside(pieces []*Look) *Look {
	if len(pieces) == 0 {
		return nil
	}
	room := &Look{Stands: true}
	for i, at := range places(pieces) {
		room.place(pieces[i], at)
	}
	room.close()
	return room
}

// places finds a place for each piece.
func places(pieces []*Look) []box {
	boxes := make([]box, len(pieces))
	var taken []box
	at := 0.0
	for i, piece := range pieces {
		if piece.Stands {
			boxes[i] = boxAt(piece, at, 0)
			at = boxes[i].right + gapMM
			taken = append(taken, boxes[i])
		}
	}
	for i, piece := range pieces {
		if !piece.Stands {
			boxes[i] = boxAt(piece, freeAbove(taken, piece), hungMM-piece.BottomMM)
			taken = append(taken, boxes[i])
		}
	}
	return boxes
}

// box is where a piece is.
type box struct{ left, right, top float64 }

// freeAbove returns the first place from the left at which a piece hangs clear of what is there.
func freeAbove(taken []box, piece *Look) float64 {
	left := 0.0
	for moved := true; moved; {
		moved = false
		right := left + piece.RightMM - piece.LeftMM
		for _, t := range taken {
			if t.top > hungMM-gapMM && t.left < right+gapMM && t.right+gapMM > left {
				left, moved = t.right+gapMM, true
				break
			}
		}
	}
	return left
}

// boxAt returns where a piece is with its left edge at a place, moved up.
func boxAt(piece *Look, leftMM, upMM float64) box {
	return box{leftMM, leftMM + piece.RightMM - piece.LeftMM, piece.TopMM + upMM}
}

// place copies a piece to its place.
func (l *Look) place(piece *Look, at box) {
	across, up := at.left-piece.LeftMM, at.top-piece.TopMM
	colours := make([]int, len(piece.Colours))
	for i, c := range piece.Colours {
		colours[i] = l.colour(c)
	}
	for _, b := range piece.Balloons {
		b.XMM, b.YMM, b.Colour = b.XMM+across, b.YMM+up, colours[b.Colour]
		l.Balloons = append(l.Balloons, b)
	}
	for _, line := range piece.Lines {
		moved := Line{make([]float64, len(line.Points)), line.ThickMM}
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
