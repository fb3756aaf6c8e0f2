package plan

import (
	"strconv"

	"garlandry/app/job"
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

// CheckSizes reports the first piece of a job that is oversized, as a [*job.FieldError] naming it; nil if none is.
func CheckSizes(j job.Job) error {
	for _, c := range Design(j).Pieces {
		if why := c.Oversized(); why != "" {
			return &job.FieldError{Path: "piece " + c.Piece.ID,
				Message: c.Piece.Name + ": " + why + "; make it smaller, or several pieces of it"}
		}
	}
	return nil
}
