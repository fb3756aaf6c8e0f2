package cluster

// Figures are the measures of a recipe's clusters at a push. All are 0 for a recipe that cannot be built.
type Figures struct {
	// PitchMM is the distance between clusters along the string, centre to centre.
	PitchMM float64 `json:"pitch_mm"`
	// GirthMM is the apparent thickness of the string: twice the mean over its balloons of distance from the string
	// plus radius.
	GirthMM float64 `json:"girth_mm"`
	// BallMM is the apparent size of one cluster before it is joined: twice the mean over its balloons of centre
	// distance plus radius.
	BallMM float64 `json:"ball_mm"`
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
	return Figures{
		PitchMM:  pitch * shape.meanMM,
		GirthMM:  float64(girth*shape.meanMM) + shape.addMM,
		BallMM:   float64(shape.curve.Ball*shape.meanMM) + shape.addMM,
		Coverage: min(coverage, 1),
	}
}

// PitchMM returns the pitch of Measure.
func PitchMM(r Recipe, p Push) float64 { return Measure(r, p).PitchMM }

// BallMM returns the ball of Measure. It does not depend on the push.
func BallMM(r Recipe) float64 { return Measure(r, StandardPush()).BallMM }

// WidestMM returns the width of one cluster, for doors: its ball, or the ball of its largest balloons alone if that is
// larger, since the ball is a mean. It is 0 for a recipe that cannot be built.
func WidestMM(r Recipe) float64 {
	normal := r.Normal()
	if len(normal) == 0 {
		return 0
	}
	largest := 0
	for i := range normal {
		if normal[i].ToIn > normal[largest].ToIn {
			largest = i
		}
	}
	return max(BallMM(r), BallMM(normal[largest:largest+1]))
}

// GirthMM returns the girth of Measure.
func GirthMM(r Recipe, p Push) float64 { return Measure(r, p).GirthMM }

// Coverage returns the coverage of Measure, 0 to 1.
func Coverage(r Recipe, p Push) float64 { return Measure(r, p).Coverage }
