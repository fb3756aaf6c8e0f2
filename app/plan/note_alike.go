package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/colour"
)

// alike is the CIEDE2000 difference under which guests in a room do not tell two colours apart. From memory.
const alike = 12

// alikeNotes names colours of one piece that look alike from afar.
func alikeNotes(d *draft) {
	for _, c := range d.Pieces {
		colours := coloursOf(c)
		for i := range colours {
			for k := range i {
				one, other := &colours[k], &colours[i]
				if one.Finish == other.Finish && differ(one, other) < alike {
					d.Inform(c.Piece.ID, c.Piece.Name+": guests will hardly tell "+one.Name+" and "+other.Name+" apart.")
				}
			}
		}
	}
}

// differ returns the CIEDE2000 difference of two colours; a large one if either cannot be read.
func differ(one, other *job.Colour) float64 {
	a, known := colour.Parse(one.Value)
	b, too := colour.Parse(other.Value)
	if !known || !too {
		return 100
	}
	return colour.Difference(a.Lab(), b.Lab())
}

// coloursOf lists the colours of a piece's balloons, each once.
func coloursOf(c *count.Counted) []job.Colour {
	var list []job.Colour
	seen := map[string]bool{}
	for _, b := range c.By {
		if !seen[b.Colour.ID] {
			seen[b.Colour.ID] = true
			list = append(list, b.Colour)
		}
	}
	return list
}
