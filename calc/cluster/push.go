package cluster

import (
	"errors"
	"fmt"
)

// Push is how hard clusters are pushed together on the string.
type Push struct {
	// Relative is the push as a multiple of the standard one; 1 is the standard
	// push. Zero, negative or not a number counts as 1.
	Relative float64 `json:"relative"`
	// Source says whose push it is: "published", "common practice" or
	// "measured by you".
	Source string `json:"source"`
}

// Sources of a push.
const (
	SourcePublished      = "published"
	SourceCommonPractice = "common practice"
	SourceMeasured       = "measured by you"
)

// ErrMeasured is wrapped by MeasuredPush when a measured base cannot give a push.
var ErrMeasured = errors.New("the measured base gives no push")

// StandardPush is the push at which quads of 11-inch balloons sized to 9.5 in
// stand two to the foot, eight balloons a foot (common practice, no source).
func StandardPush() Push { return Push{Relative: 1, Source: SourceCommonPractice} }

// MeasuredPush is the push of a builder whose base of the recipe took this many
// clusters over the length. Errors wrap ErrRecipe, or ErrMeasured when the
// clusters would stand apart without touching, or closer than hands can push.
func MeasuredPush(r Recipe, lengthMM float64, clusters int) (Push, error) {
	if err := r.Check(); err != nil {
		return Push{}, err
	}
	if !(lengthMM > 0) || clusters < 1 {
		return Push{}, fmt.Errorf("a measured base needs a length above 0 and at least 1 cluster, as in 3.1 m and 12 clusters: %w", ErrMeasured)
	}
	relative := relativeAt(r, lengthMM/float64(clusters))
	if relative < leastPush || relative > mostPush {
		return Push{}, fmt.Errorf("%d clusters of %s over %.0f mm would stand apart or be crushed; count again on a base pushed together: %w",
			clusters, r, lengthMM, ErrMeasured)
	}
	return Push{Relative: relative, Source: SourceMeasured}, nil
}

// What hands can do, as a share of the standard push.
const (
	leastPush = 0.05
	mostPush  = 4.0
)

// strength is the push held within what hands can do.
func (p Push) strength() float64 {
	if !(p.Relative > 0) {
		return 1
	}
	return min(max(p.Relative, leastPush), mostPush)
}
