package count

import (
	"strconv"
)

// The bounds of one piece: more than any crew could build, so it must be a slip of the finger.
const (
	MostClusters = 20_000
	MostBalloons = 100_000
)

// Oversized says why a piece is beyond [MostClusters] or [MostBalloons], empty if it is not.
func (c PieceCount) Oversized() string {
	if c.Clusters <= MostClusters && c.Balloons <= MostBalloons {
		return ""
	}
	return "that would take " + strconv.Itoa(c.Clusters) + " clusters and " + strconv.Itoa(
		c.Balloons,
	) + " balloons; a piece may have up to " +
		strconv.Itoa(MostClusters) + " clusters and " + strconv.Itoa(
		MostBalloons,
	) + " balloons"
}
