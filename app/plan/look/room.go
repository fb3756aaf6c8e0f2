package look

import (
	"math"

	"garlandry/app/job"
)

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
	var taken []box
	at := 0.0
	for _, piece := range pieces {
		if piece.Stands {
			taken = append(taken, room.place(piece, at, 0))
			at = taken[len(taken)-1].right + gapMM
		}
	}
	for _, piece := range pieces {
		if !piece.Stands {
			taken = append(taken, room.place(piece, freeAbove(taken, piece), hungMM-piece.BottomMM))
		}
	}
	room.close()
	return room
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

// place copies a piece with its left edge at a place, moved up, and returns where it is.
func (l *Look) place(piece *Look, leftMM, upMM float64) box {
	across := leftMM - piece.LeftMM
	colours := make([]int, len(piece.Colours))
	for i, c := range piece.Colours {
		colours[i] = l.colour(c)
	}
	for _, b := range piece.Balloons {
		b.XMM, b.YMM, b.Colour = b.XMM+across, b.YMM+upMM, colours[b.Colour]
		l.Balloons = append(l.Balloons, b)
	}
	for _, line := range piece.Lines {
		moved := Line{make([]float64, len(line.Points)), line.ThickMM}
		for i, p := range line.Points {
			moved.Points[i] = p + across
			if i%2 == 1 {
				moved.Points[i] = p + upMM
			}
		}
		l.Lines = append(l.Lines, moved)
	}
	l.Clusters += piece.Clusters
	return box{leftMM, leftMM + math.Abs(piece.RightMM-piece.LeftMM), piece.TopMM + upMM}
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
