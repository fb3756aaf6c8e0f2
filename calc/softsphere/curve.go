package softsphere

// Points is the number of pushes of a [Curve].
const Points = 10

// pushes are the pushes of a Curve, as shares of the mean diameter, rising.
var pushes = [Points]float64{0.05, 0.1, 0.14, 0.17, 0.2, 0.23, 0.27, 0.35, 0.5, 0.8}

// Curve holds everything about a cluster that does not depend on its size. Lengths are shares of the mean diameter of
// its balloons.
type Curve struct {
	// Ball is the apparent size of the free cluster; see [Rest.BallMM].
	Ball float64
	// Pitch, Girth and Coverage (0 to 1) of a string have one value for each push. Pitch never rises with the push.
	Pitch, Girth, Coverage [Points]float64
}

// NewCurve returns the figures of [Typical] at every push, and the ball of [Free]. It takes 0.3 s for quads and 5 s for
// clusters of sixteen on one core of 2024, so callers cache it. Errors wrap ErrSpheres.
func NewCurve(diametersMM []float64) (*Curve, error) {
	return newCurve(diametersMM, nil, Rest.Coverage)
}

// Sketch returns what [NewCurve] returns, without the coverages, which stay 0. It calls pause, if not nil, every
// millisecond or two, so that the caller can do other things.
func Sketch(diametersMM []float64, pause func()) (*Curve, error) {
	return newCurve(diametersMM, pause, nil)
}

func newCurve(diametersMM []float64, pause func(), coverage func(Rest) float64) (*Curve, error) {
	if err := checkDiameters(diametersMM, typicalClusters); err != nil {
		return nil, err
	}
	free, _ := tightest(diametersMM, freeStarts, closely, pause)
	scale := meanOf(diametersMM)
	curve := &Curve{Ball: free.BallMM() / scale}
	for i, push := range pushes {
		typical := typical(diametersMM, push, pause, coverage)
		curve.Pitch[i] = typical.PitchMM / scale
		curve.Girth[i] = typical.GirthMM / scale
		curve.Coverage[i] = typical.Coverage
		if i > 0 {
			curve.Pitch[i] = min(curve.Pitch[i], curve.Pitch[i-1])
		}
	}
	return curve, nil
}

// At returns the pitch, girth and coverage at a push. It interpolates linearly and is constant beyond the ends.
func (c *Curve) At(push float64) (pitch, girth, coverage float64) {
	i, share := between(push)
	return blend(&c.Pitch, i, share), blend(&c.Girth, i, share), blend(&c.Coverage, i, share)
}

// PushAt returns the push at which clusters have that pitch, and whether the curve reaches it.
func (c *Curve) PushAt(pitch float64) (float64, bool) {
	for i := range Points - 1 {
		from, to := c.Pitch[i], c.Pitch[i+1]
		if pitch <= from && pitch >= to {
			if from == to {
				return pushes[i], true
			}
			share := (from - pitch) / (from - to)
			return pushes[i] + float64(share*(pushes[i+1]-pushes[i])), true
		}
	}
	return 0, false
}

// Mix moves this curve towards another by a share, 0 to 1.
func (c *Curve) Mix(other *Curve, share float64) {
	c.Ball = mix(c.Ball, other.Ball, share)
	for i := range Points {
		c.Pitch[i] = mix(c.Pitch[i], other.Pitch[i], share)
		c.Girth[i] = mix(c.Girth[i], other.Girth[i], share)
		c.Coverage[i] = mix(c.Coverage[i], other.Coverage[i], share)
		if i > 0 {
			c.Pitch[i] = min(c.Pitch[i], c.Pitch[i-1])
		}
	}
}

// between returns the index of the point before a push, and the share of the way to the next point.
func between(push float64) (int, float64) {
	if !(push > pushes[0]) {
		return 0, 0
	}
	for i := range Points - 1 {
		if push <= pushes[i+1] {
			return i, (push - pushes[i]) / (pushes[i+1] - pushes[i])
		}
	}
	return Points - 2, 1
}

func blend(of *[Points]float64, i int, share float64) float64 {
	return mix(of[i], of[i+1], share)
}

// mix returns the value at a share of the way from a to b. The result stays between them and never reverses as the
// share grows, because rounding keeps the order of a single growing term only.
func mix(a, b, share float64) float64 {
	at := a + float64((b-a)*share)
	return min(max(at, min(a, b)), max(a, b))
}
