package count

import "math"

// layerTolerance is the share of a layer that rounding up forgives, as in [cluster.ClustersAlong].
const layerTolerance = 1e-3

// layersFor is how many layers, pitchMM apart and each thickMM high by itself, reach sizeMM: the first is thickMM,
// every further one adds a pitch. It rounds up once; it is at least 1, and 0 for a size of 0 or a recipe that cannot be
// built. The calculators for columns and walls count alike, which a test holds.
func layersFor(sizeMM, pitchMM, thickMM float64) int {
	if !(sizeMM > 0) || !(pitchMM > 0) {
		return 0
	}
	if sizeMM <= thickMM {
		return 1
	}
	return 1 + int(math.Ceil(max(math.Min((sizeMM-thickMM)/pitchMM, 1e6)-layerTolerance, 0)))
}

// widestMM is the largest balloon in any of the groups.
func widestMM(groups []group) float64 {
	widest := 0.0
	for _, g := range groups {
		for _, part := range g.recipe {
			widest = max(widest, part.DiameterMM())
		}
	}
	return widest
}
