package count

import "math"

// layerTolerance is the share of a layer that rounding up ignores, as in [cluster.ClustersAlong].
const layerTolerance = 1e-3

// layersFor returns how many layers reach sizeMM: the first is thickMM high, each further one adds pitchMM. It rounds
// up once and returns at least 1, but 0 for a size of 0 or a recipe that cannot be built. A test keeps it equal to the
// column and wall calculators.
func layersFor(sizeMM, pitchMM, thickMM float64) int {
	if !(sizeMM > 0) || !(pitchMM > 0) {
		return 0
	}
	if sizeMM <= thickMM {
		return 1
	}
	return 1 + int(math.Ceil(max(math.Min((sizeMM-thickMM)/pitchMM, 1e6)-layerTolerance, 0)))
}

// widestMM returns the largest balloon in any of the groups.
func widestMM(groups []group) float64 {
	widest := 0.0
	for _, g := range groups {
		for _, part := range g.recipe {
			widest = max(widest, part.DiameterMM())
		}
	}
	return widest
}
