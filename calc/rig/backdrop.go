package rig

// Assumptions about a backdrop frame whose feet were not measured.
const (
	// BackdropFeetMM is how deep its feet are, front to back (from memory).
	BackdropFeetMM = 600.0
	// LeaningN is somebody leaning on it at LeaningMM above the floor (from
	// memory): what it must stand indoors too.
	LeaningN, LeaningMM = 50.0, 1200.0
	// backdropFriction is the friction of grass or of steel feet on concrete, whichever
	// is less (see [FindGround]).
	backdropFriction = 0.3
)

// BackdropBallastKG returns the ballast for a covered frame, spread evenly over the feet, in whole kilograms. With it
// the frame stands in gusts of that speed with somebody leaning on it, by [Frame.Tip] with the usual factors. The
// frame is closed to the wind from the floor up, on feet BackdropFeetMM deep. gustMPS 0 is indoors. stands is false
// if it must not stand at any weight (wind above [HighestWindMPS]), and for measures out of range.
func BackdropBallastKG(widthMM, heightMM, massG, gustMPS float64) (ballastKG float64, stands bool) {
	push := Leaning(heightMM)
	push.WindMPS = gustMPS
	tip, err := Backdrop(widthMM, heightMM, massG).Tip(push, TipRule{})
	return tip.BallastKG, err == nil && gustMPS <= HighestWindMPS
}

// Backdrop is a closed frame from the floor up, on feet BackdropFeetMM deep; massG with what is on its feet.
func Backdrop(widthMM, heightMM, massG float64) Frame {
	return Frame{WidthMM: widthMM, HeightMM: heightMM, MassG: massG, BaseDepthMM: BackdropFeetMM,
		BaseWidthMM: widthMM, Friction: backdropFriction}
}

// Leaning is somebody leaning on a frame of that height.
func Leaning(heightMM float64) Push { return Push{PushN: LeaningN, PushAtMM: min(LeaningMM, heightMM)} }
