package nest

// Work is a Curve in the making, for callers with other things to do meanwhile.
type Work struct {
	diameters []float64
	curve     Curve
	ball      twist
	tried     int     // starts of the ball
	point     int     // of the curve
	found     starts  // at that point
	start     int     // of them
	string    *system // being relaxed; nil between starts
	pushed    bool    // together, after it was relaxed apart
}

// stepMoves is how often Step finds the force on a balloon at most, but for a whole
// start of a ball: 1 to 2 ms on one core of 2024.
const stepMoves = 10_000

// NewWork is a curve of which nothing is done yet. Errors wrap ErrSpheres.
func NewWork(diametersMM []float64) (*Work, error) {
	if err := checkDiameters(diametersMM, typicalClusters); err != nil {
		return nil, err
	}
	return &Work{diameters: diametersMM, ball: newTwist(diametersMM)}, nil
}

// Step does a little more and says whether anything is left.
func (w *Work) Step() bool {
	switch {
	case w.tried < freeStarts:
		w.ball.try(uint64(w.tried), closely)
		w.tried++
	case w.point == Points:
		return false
	case w.string == nil:
		w.string, w.pushed = scattered(w.diameters, typicalClusters, uint64(w.start)+1), false
		w.string.begin(roughly, mostFreeSteps)
	case w.string.advance(stepMoves / len(w.string.radius)):
	case !w.pushed:
		w.pushed = true
		w.string.squeeze(Pushes()[w.point])
	default:
		w.found.put(w.start, w.string.rest(0, true))
		w.string = nil
		if w.start++; w.start == typicalStarts {
			w.keep()
		}
	}
	return true
}

// keep takes the figures of a point and goes on to the next.
func (w *Work) keep() {
	typical, scale, c, i := w.found.typical(), meanOf(w.diameters), &w.curve, w.point
	c.Pitch[i] = typical.PitchMM / scale
	c.Girth[i] = typical.GirthMM / scale
	c.Coverage[i] = typical.Coverage
	if i > 0 {
		c.Pitch[i] = min(c.Pitch[i], c.Pitch[i-1])
	}
	w.point, w.start = i+1, 0
}

// Curve is the curve once Step says that nothing is left; before, what there is of it.
func (w *Work) Curve() Curve {
	w.curve.Ball = w.ball.best.BallMM() / meanOf(w.diameters)
	return w.curve
}
