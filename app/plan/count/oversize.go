package count

import "strconv"

// The limits of one piece. More than any crew could build must be a typing error.
const (
	MostClusters = 20_000
	MostBalloons = 100_000
)

// Oversized says why a piece is beyond [MostClusters] or [MostBalloons]; "" if it is not.
func (c PieceCount) Oversized() string {
	if c.Clusters <= MostClusters && c.Balloons <= MostBalloons {
		return ""
	}
	return "that would take " + strconv.Itoa(c.Clusters) + " clusters and " + strconv.Itoa(c.Balloons) +
		" balloons; a piece may have up to " + strconv.Itoa(MostClusters) + " clusters and " + strconv.Itoa(MostBalloons) +
		" balloons"
}
