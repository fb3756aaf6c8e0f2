package figures

import (
	"strconv"

	"garlandry/app/plan/phrase"
	"garlandry/calc/latex"
)

// rubberEntries returns the grams of one empty balloon of each size.
func rubberEntries() []entry {
	var rows []entry
	for _, s := range latex.Sizes() {
		name := phrase.Inch(s.NominalIn)
		if s.Modelling() {
			name = strconv.Itoa(s.NominalIn)
		}
		rows = append(rows, entry{RubberKey(s.NominalIn), "One empty " + name + " weighs", s.LatexG, s.LatexG / 5,
			s.LatexG * 5, "g", Mark(s.Mark)})
	}
	return rows
}

// RubberKey returns the key of the mass of an empty balloon.
func RubberKey(sizeIn int) string { return "rubber/" + strconv.Itoa(sizeIn) }
