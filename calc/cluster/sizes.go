package cluster

import (
	"strconv"
	"strings"

	"garlandry/calc/latex"
)

// findSize is the round balloon of a nominal size; modelling balloons make no
// clusters.
func findSize(nominalIn int) (latex.Size, bool) {
	size, known := latex.Find(nominalIn)
	return size, known && !size.Modelling()
}

// sizeList names the round sizes for error messages.
func sizeList() string {
	var names []string
	for _, size := range latex.Sizes() {
		if !size.Modelling() {
			names = append(names, strconv.Itoa(size.NominalIn))
		}
	}
	return strings.Join(names, ", ")
}
