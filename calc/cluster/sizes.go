package cluster

import (
	"strconv"
	"strings"

	"garlandry/calc/latex"
)

// findSize returns the round balloon of a nominal size. It does not find modelling balloons: they make no clusters.
func findSize(nominalIn int) (latex.Size, bool) {
	size, known := latex.Find(nominalIn)
	return size, known && !size.Modelling()
}

// sizeList returns the round sizes for error messages.
func sizeList() string {
	var names []string
	for _, size := range latex.Sizes() {
		if !size.Modelling() {
			names = append(names, strconv.Itoa(size.NominalIn))
		}
	}
	return strings.Join(names, ", ")
}
