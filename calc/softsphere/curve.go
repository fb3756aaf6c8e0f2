package softsphere

// Points is the number of pushes of a [Curve].
const Points = 10

// pushes are the pushes of a Curve, as shares of the mean diameter, rising.
var pushes = [Points]float64{0.05, 0.1, 0.14, 0.17, 0.2, 0.23, 0.27, 0.35, 0.5, 0.8}

// AtPushes is a figure of a string at every push of a Curve.
type AtPushes [Points]float64

// Curve holds the figures of a string of clusters that do not depend on its size.
type Curve struct {
	// Pitch is a share of the mean diameter of the balloons. It never rises with the push.
	Pitch AtPushes
	// Coverage is a share, 0 to 1; see [Rest.Coverage].
	Coverage AtPushes
}

// Profile holds everything about a cluster that does not depend on its size. Lengths are shares of the mean diameter
// of its balloons.
type Profile struct {
	Curve
	// Width and Widest are of the string; see [Rest.WidthMM] and [Rest.WidestMM].
	Width, Widest AtPushes
	// Ball and Seen are of the free cluster; see [Rest.BallMM] and [Rest.SeenMM].
	Ball, Seen float64
}

// NewProfile returns the figures of [Typical] at every push, and those of [Free]. It takes 0.3 s for quads and 5 s for
// clusters of sixteen on one core of 2024. Errors wrap ErrSpheres.
func NewProfile(diametersMM []float64) (*Profile, error) {
	if err := checkDiameters(diametersMM, typicalClusters); err != nil {
		return nil, err
	}
	free, _ := tightest(diametersMM, freeStarts, closely, nil)
	scale := meanOf(diametersMM)
	profile := &Profile{Ball: free.BallMM() / scale, Seen: free.SeenMM() / scale}
	for i, push := range pushes {
		typical := typical(diametersMM, push, nil, true)
		profile.Pitch[i] = typical.PitchMM / scale
		profile.Width[i] = typical.WidthMM / scale
		profile.Widest[i] = typical.WidestMM / scale
		profile.Coverage[i] = typical.Coverage
	}
	profile.Pitch.fall()
	return profile, nil
}

// Sketch returns the pitches of [NewProfile]. Coverages stay 0. It calls pause, if not nil, every millisecond or two,
// so that the caller can do other things.
func Sketch(diametersMM []float64, pause func()) (*Curve, error) {
	if err := checkDiameters(diametersMM, typicalClusters); err != nil {
		return nil, err
	}
	scale := meanOf(diametersMM)
	curve := new(Curve)
	for i, push := range pushes {
		curve.Pitch[i] = typical(diametersMM, push, pause, false).PitchMM / scale
	}
	curve.Pitch.fall()
	return curve, nil
}

// At returns the figure at a push. It interpolates linearly and is constant beyond the ends.
func (a *AtPushes) At(push float64) float64 {
	i, share := between(push)
	return mix(a[i], a[i+1], share)
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
	for i := range Points {
		c.Pitch[i] = mix(c.Pitch[i], other.Pitch[i], share)
		c.Coverage[i] = mix(c.Coverage[i], other.Coverage[i], share)
	}
	c.Pitch.fall()
}

// fall lowers figures that are above the one before.
func (a *AtPushes) fall() {
	for i := 1; i < Points; i++ {
		a[i] = min(a[i], a[i-1])
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

// mix returns the value at a share of the way from a to b. The result stays between them and never reverses as the
// share grows, because rounding keeps the order of a single growing term only.
func mix(a, b, share float64) float64 {
	at := a + float64((b-a)*share)
	return min(max(at, min(a, b)), max(a, b))
}
