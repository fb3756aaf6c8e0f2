package view

import (
	"garlandry/app/job"
	"garlandry/app/plan/packing"
)

// lineFits reports whether a line of a bag fits what was searched for.
type lineFits func(packing.Bag, packing.Line) bool

// packFits finds lines of the pack list by name, reason, bag, colour, size and note.
func packFits(f Frame, j job.Job) lineFits {
	return func(bag packing.Bag, l packing.Line) bool {
		if !f.Finder.on() {
			return true
		}
		texts := []string{l.Name, l.Reason, bag.Name, NoteOn(j, l.Key)}
		if l.Colour != nil {
			texts = append(texts, l.Colour.Name)
		}
		if l.SizeIn > 0 {
			texts = append(texts, inches(l.SizeIn))
		}
		return f.Finder.Fits(texts...)
	}
}

// shownLine reports whether a line is shown: any, or with left one that is still to pack or to take out.
func shownLine(l packing.Line, left bool) bool {
	if l.Unneeded {
		return !left || l.Have > 0
	}
	return !left || l.More() != 0
}

// shownLines counts the lines that are shown and fit; fits may be nil for all.
func shownLines(pack []packing.Bag, fits lineFits, left bool) int {
	n := 0
	for _, bag := range pack {
		for _, l := range bag.Lines {
			if shownLine(l, left) && (fits == nil || fits(bag, l)) {
				n++
			}
		}
	}
	return n
}
