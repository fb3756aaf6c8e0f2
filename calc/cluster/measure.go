package cluster

import "garlandry/calc/cluster/internal/table"

// Figures are the measures of a recipe's clusters at a push. All are 0 for a recipe that cannot be built. No length
// falls when a balloon is added to the recipe. WidthMM, WidestMM, BallMM and BallSeenMM do not fall either when a
// balloon is sized larger. PitchMM may fall then, mostly by less than 0.5 %.
// A Model's pitch may fall in either case.
type Figures struct {
	// PitchMM is the distance between clusters along the string, centre to centre.
	PitchMM float64 `json:"pitch_mm"`
	// WidthMM is the visible width of the string, as a tape measure held across it reads: from one edge of its outline
	// to the other, as a mean along it. What the wind meets is as large as the length times this width, within one
	// percent.
	WidthMM float64 `json:"width_mm"`
	// WidestMM is the largest width of the string: what that tape measure reads at the thickest of twenty clusters,
	// from the side from which it is thickest.
	WidestMM float64 `json:"widest_mm"`
	// BallMM is the diameter of the smallest sphere that holds one cluster before it is joined.
	BallMM float64 `json:"ball_mm"`
	// BallSeenMM is the size that such a cluster seems to have: the diameter of the disc that hides as much as the
	// cluster does, as a mean over all directions.
	BallSeenMM float64 `json:"ball_seen_mm"`
	// Coverage is the share, 0 to 1, that the balloons hide of a straight band along the string, as wide as its visible
	// width. The rest shows through, or beside balloons that stick out of the band.
	Coverage float64 `json:"coverage"`
}

// Measure returns the figures of a recipe at a push. Pitch and coverage are from the table or, for other recipes, the
// pitch is from the push's Model. The sizes are from the table's growths for every recipe.
func Measure(r Recipe, p Push) Figures {
	shape, ok := shapeOf(r, p.model)
	if !ok {
		return Figures{}
	}
	sizes := sizesAt(r, p)
	return Figures{
		PitchMM:    shape.curve.Pitch.At(p.share()) * shape.meanMM,
		WidthMM:    sizes.Width,
		WidestMM:   sizes.Widest,
		BallMM:     sizes.Ball,
		BallSeenMM: sizes.Seen,
		Coverage:   min(shape.curve.Coverage.At(p.share()), 1),
	}
}

// sizesAt returns the sizes of a recipe at a push, which are 0 for a recipe that cannot be built.
func sizesAt(r Recipe, p Push) table.Sizes {
	if !r.usable() {
		return table.Sizes{}
	}
	return table.SizesAt(bySize(r), p.share())
}

// PitchMM returns the pitch of Measure.
func PitchMM(r Recipe, p Push) float64 { return Measure(r, p).PitchMM }

// WidthMM returns the visible width of the string, see [Figures].
func WidthMM(r Recipe, p Push) float64 { return sizesAt(r, p).Width }

// WidestMM returns the largest width of the string, for doors and cars, see [Figures].
func WidestMM(r Recipe, p Push) float64 { return sizesAt(r, p).Widest }

// BallMM returns the sphere that holds a free cluster, for doors and cars. It does not depend on the push.
func BallMM(r Recipe) float64 { return sizesAt(r, StandardPush()).Ball }

// BallSeenMM returns the size that a free cluster seems to have. It does not depend on the push.
func BallSeenMM(r Recipe) float64 { return sizesAt(r, StandardPush()).Seen }

// Coverage returns the coverage of Measure, 0 to 1.
func Coverage(r Recipe, p Push) float64 { return Measure(r, p).Coverage }
