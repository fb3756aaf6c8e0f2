package calc

import "math"

// stackTolerance is the share of a layer that rounding up ignores. With it phone and server agree if a height is a
// whole number of layers.
const stackTolerance = 1e-3

// layersFor returns how many layers reach sizeMM, rounded up, at least 1. The first is thickMM high; each further one
// adds pitchMM.
func layersFor(sizeMM, pitchMM, thickMM float64) int {
	if sizeMM <= thickMM || !(pitchMM > 0) {
		return 1
	}
	return 1 + int(math.Ceil(math.Max((sizeMM-thickMM)/pitchMM-stackTolerance, 0)))
}

// stackMM returns how far n such layers reach.
func stackMM(n int, pitchMM, thickMM float64) float64 {
	return thickMM + float64(float64(max(n, 1)-1)*pitchMM)
}
