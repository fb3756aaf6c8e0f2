package cluster

import (
	"errors"
	"fmt"

	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/softsphere"
)

// Push is how hard clusters are pushed together on the string.
type Push struct {
	// Relative is the push as a multiple of the standard push. Zero, negative or not a number counts as 1. Below about
	// a quarter and above about four the pitch no longer changes: people cannot push harder.
	Relative float64 `json:"relative"`
	// Source is the source of the push: "published", "common practice" or "measured by you".
	Source string `json:"source"`

	model *Model
}

// By returns the push with a Model that relaxes recipes that are not in the table.
func (p Push) By(m *Model) Push {
	p.model = m
	return p
}

// Sources of a push.
const (
	SourcePublished      = "published"
	SourceCommonPractice = "common practice"
	SourceMeasured       = "measured by you"
)

// ErrMeasured is wrapped by MeasuredPush when a measured base cannot give a push.
var ErrMeasured = errors.New("the measured base gives no push")

// StandardPush returns the push at which quads of 11-inch balloons filled to 9.5 in have two per foot, eight balloons a
// foot (common practice, no source).
func StandardPush() Push { return Push{Relative: 1, Source: SourceCommonPractice} }

func (m *Model) MeasuredPush(r Recipe, lengthMM float64, clusters int) (Push, error) {
	if err := r.Check(); err != nil {
		return Push{}, err
	}
	if !(lengthMM > 0) || clusters < 1 {
		return Push{}, fmt.Errorf(
			"a measured base needs a length above 0 and at least 1 cluster, as in 3.1 m and 12 clusters: %w", ErrMeasured,
		)
	}
	shape, _ := shapeOf(r, m)
	pitch := lengthMM / float64(clusters)
	push, reached := shape.curve.PushAt(pitch / shape.meanMM)
	if !reached {
		closest, widest := shape.curve.Pitch[softsphere.Points-1], shape.curve.Pitch[0]
		return Push{}, fmt.Errorf(
			"%d clusters of %s over %.0f mm are %.0f mm apart, not %.0f to %.0f mm: %w",
			clusters, r, lengthMM, pitch, closest*shape.meanMM, widest*shape.meanMM, ErrMeasured,
		)
	}
	return Push{push / standardShare(), SourceMeasured, m}, nil
}

// share returns the push for calc/softsphere, as a share of the mean diameter.
func (p Push) share() float64 {
	if !(p.Relative > 0) {
		return standardShare()
	}
	return p.Relative * standardShare()
}

// This rule of thumb fixes the standard push: quads of 11-inch balloons filled to 9.5 in have two per foot (common
// practice, no source).
const (
	ruleSizedToIn = 9.5
	rulePitchIn   = 12.0 / 2
)

// standardShare returns the push at which the rule of thumb holds exactly, about 0.2 of the mean diameter.
func standardShare() float64 {
	var quads softsphere.Curve
	table.Kept.Curve(&quads, []table.Group{{Duplets: 2, Diameter: 1}})
	push, _ := quads.PushAt(rulePitchIn / ruleSizedToIn)
	return push
}
