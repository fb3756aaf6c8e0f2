package cluster

// Figures are the measures of a recipe's clusters at a push. All are 0 for a recipe that cannot be built.
type Figures struct {
	// PitchMM is the distance between clusters along the string, centre to centre.
	PitchMM float64 `json:"pitch_mm"`
	// GirthMM is the apparent thickness of the string: twice the mean over its balloons of distance from the string
	// plus radius.
	GirthMM float64 `json:"girth_mm"`
	// WidthMM is the visible width of the string: what a tape measure across its outline reads, as a mean along it.
	WidthMM float64 `json:"width_mm"`
	// WidestMM is the largest width of the string: the straight tube about it that holds every balloon.
	WidestMM float64 `json:"widest_mm"`
	// BallMM is the sphere that holds one cluster before it is joined.
	BallMM float64 `json:"ball_mm"`
	// BallSeenMM is the size that such a cluster seems to have: the disc as large as its mean silhouette.
	BallSeenMM float64 `json:"ball_seen_mm"`
	// Coverage is the share, 0 to 1, of the band with the string's length and girth that its balloons hide from the
	// front.
	Coverage float64 `json:"coverage"`
}

// Measure returns the figures of a recipe at a push, from the table or, for other recipes, from the push's Model.
func Measure(r Recipe, p Push) Figures {
	shape, ok := shapeOf(r, p.model)
	if !ok {
		return Figures{}
	}
	pitch, girth, coverage := shape.curve.At(p.share())
	figures := Figures{
		PitchMM:    pitch * shape.meanMM,
		GirthMM:    float64(girth*shape.meanMM) + shape.addMM,
		BallSeenMM: float64(shape.curve.Ball*shape.meanMM) + shape.addMM,
		Coverage:   min(coverage, 1),
	}
	// The girth and the ball are means over balloons. The largest balloons reach further by what they are larger.
	largest, further := spanMM(r), 0.0
	if mean := shape.meanMM + shape.addMM/2; largest/2 > mean {
		further = largest/2 - mean
	}
	figures.WidthMM = max(figures.GirthMM+further, largest)
	figures.WidestMM = max(figures.GirthMM+float64(2*further), largest)
	figures.BallMM = max(figures.BallSeenMM, pairsMM(r, p))
	return figures
}

// spanMM returns the span of the largest duplet: two balloons neck to neck.
func spanMM(r Recipe) float64 {
	largest := 0.0
	for _, part := range r {
		if part.Duplets > 0 {
			largest = max(largest, part.DiameterMM())
		}
	}
	return 2 * largest
}

// pairsMM returns the ball of the largest balloons alone.
func pairsMM(r Recipe, p Push) float64 {
	var alone Recipe
	for _, part := range r {
		if part.Duplets > 0 && 2*part.DiameterMM() == spanMM(r) {
			alone = append(alone, part)
		}
	}
	shape, _ := shapeOf(alone, p.model)
	return float64(shape.curve.Ball*shape.meanMM) + shape.addMM
}

// PitchMM returns the pitch of Measure.
func PitchMM(r Recipe, p Push) float64 { return Measure(r, p).PitchMM }

// WidthMM returns the visible width of the string, see [Figures].
func WidthMM(r Recipe, p Push) float64 { return Measure(r, p).WidthMM }

// WidestMM returns the largest width of the string, for doors and cars, see [Figures].
func WidestMM(r Recipe, p Push) float64 { return Measure(r, p).WidestMM }

// BallMM returns the sphere that holds a free cluster, for doors and cars. It does not depend on the push.
func BallMM(r Recipe) float64 { return Measure(r, StandardPush()).BallMM }

// BallSeenMM returns the size that a free cluster seems to have. It does not depend on the push.
func BallSeenMM(r Recipe) float64 { return Measure(r, StandardPush()).BallSeenMM }

// GirthMM returns the girth of Measure.
func GirthMM(r Recipe, p Push) float64 { return Measure(r, p).GirthMM }

// Coverage returns the coverage of Measure, 0 to 1.
func Coverage(r Recipe, p Push) float64 { return Measure(r, p).Coverage }
