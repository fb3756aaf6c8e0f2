package cluster

import (
	"fmt"

	"garlandry/calc/softsphere"
)

// MostArranged is the most clusters Arrange sets out: enough to show how a base
// lies; a longer one repeats.
const MostArranged = 100

// Arrange sets out the balloons of a base for drawing: this many clusters, 1 to
// MostArranged, at exactly the pitch that ClustersAlong counts with, so that
// what is drawn is what is bought. It relaxes anew each time (10 ms for ten
// clusters of six); keep the answer. Errors wrap ErrRecipe or softsphere.ErrSpheres.
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

// arrangeSeed is the start that is drawn; any other is as good.
const arrangeSeed = 1

// ArrangeOne sets out the balloons of one free cluster for drawing. Errors wrap
// ErrRecipe or softsphere.ErrSpheres.
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
