package cluster

import (
	"fmt"

	"garlandry/calc/softsphere"
)

// MostArranged is the most clusters that Arrange places, enough to show a base. A longer base repeats.
const MostArranged = 100

// Arrange returns the balloons of a base for drawing: 1 to MostArranged clusters, at exactly the pitch of
// ClustersAlong. Every call relaxes them (10 ms for ten clusters of six), so cache the result. Errors wrap ErrRecipe
// or softsphere.ErrSpheres.
func Arrange(r Recipe, p Push, clusters int) (softsphere.Rest, error) {
	if err := r.Check(); err != nil {
		return softsphere.Rest{}, err
	}
	rest, err := softsphere.Held(r.DiametersMM(), min(max(clusters, 1), MostArranged), PitchMM(r, p), arrangeSeed)
	if err != nil {
		return softsphere.Rest{}, fmt.Errorf("set out %d clusters of %s: %w", clusters, r, err)
	}
	return rest, nil
}

// arrangeSeed is the start for drawings. Any other would do.
const arrangeSeed = 1

// ArrangeOne returns the balloons of one free cluster for drawing. Errors wrap ErrRecipe or softsphere.ErrSpheres.
func ArrangeOne(r Recipe) (softsphere.Rest, error) {
	if err := r.Check(); err != nil {
		return softsphere.Rest{}, err
	}
	rest, err := softsphere.FreeSketch(r.DiametersMM())
	if err != nil {
		return softsphere.Rest{}, fmt.Errorf("set out a cluster of %s: %w", r, err)
	}
	return rest, nil
}
