package plan

import (
	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/calc/colour"
)

// alike is the CIEDE2000 difference under which guests in a room do not tell two colours apart. From memory.
const alike = 12

// alikeNotes names colours of one piece that look alike from afar, to everybody or to those who do not tell red from
// green: about one man in twelve and one woman in two hundred, from memory.
func alikeNotes(d *draft) {
	said := map[string]bool{}
	for _, c := range d.Pieces {
		colours := coloursOf(c)
		for i := range colours {
			for k := range i {
				one, other := &colours[k], &colours[i]
				if finishSeen(one) != finishSeen(other) {
					continue
				}
				names := one.Name + " and " + other.Name
				switch to := alikeTo(one, other); {
				case to == toAll:
					d.Inform(c.Piece.ID, c.Piece.Name+": guests will hardly tell "+names+" apart.")
				case to == toSome && !said[names]:
					said[names], said[other.Name+" and "+one.Name] = true, true
					d.Inform("", names+" look alike to guests who do not tell red from green.")
				}
			}
		}
	}
}

// finishSeen returns the finish of a colour as guests see it: pastel and standard balloons are both matt and opaque.
func finishSeen(c *job.Colour) string {
	if c.Finish == "pastel" {
		return "standard"
	}
	return c.Finish
}

// Whom two colours look alike to.
const (
	toNobody = iota
	toSome   // to those who do not tell red from green, see [colour.RGB.Seen]
	toAll
)

// alikeTo returns whom two colours look alike to; nobody if either cannot be read.
func alikeTo(one, other *job.Colour) int {
	a, known := colour.Parse(one.Value)
	b, too := colour.Parse(other.Value)
	if !known || !too {
		return toNobody
	}
	if colour.Difference(a.Lab(), b.Lab()) < alike {
		return toAll
	}
	for _, sight := range [...]colour.Sight{colour.Protanopia, colour.Deuteranopia} {
		if colour.Difference(a.Seen(sight).Lab(), b.Seen(sight).Lab()) < alike {
			return toSome
		}
	}
	return toNobody
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
