package cluster

import "math"

// clusterTolerance is the share of a cluster that rounding up ignores. With it a length of exactly n pitches takes n
// clusters on every machine.
const clusterTolerance = 1e-3

// ClustersAlong returns how many clusters of the recipe a base of the length takes. It rounds up once and ignores a
// thousandth of a cluster. It never falls when the length grows. It is 0 for a length of 0 or a recipe that cannot be
// built.
func ClustersAlong(lengthMM float64, r Recipe, p Push) int {
	pitch := PitchMM(r, p)
	if !(pitch > 0) || !(lengthMM > 0) {
		return 0
	}
	return int(math.Ceil(max(math.Min(lengthMM/pitch, math.MaxInt32)-clusterTolerance, 0)))
}
