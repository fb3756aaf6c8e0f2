package rig

// Assumptions about a backdrop frame whose feet were not measured.
const (
	// BackdropFeetMM is the depth of its feet, front to back (from memory).
	BackdropFeetMM = 600.0
	// LeaningN is the force of a person who leans on it at LeaningMM above the floor (from memory). It must withstand
	// this indoors too.
	LeaningN, LeaningMM = 50.0, 1200.0
	// backdropFriction is the friction of grass or of steel feet on concrete, whichever is lower (see [FindGround]).
	backdropFriction = 0.3
)

// BackdropBallastKG returns the ballast in whole kilograms for a covered frame, spread evenly over the feet. With it
// the frame stands in gusts of that speed while a person leans on it, by [Frame.Tip] with the usual factors. The frame
// is closed from the floor up, on feet BackdropFeetMM deep. gustMPS 0 means indoors. stands is false if no weight is
// safe (wind above [HighestWindMPS]), and for measures out of range.
func BackdropBallastKG(widthMM, heightMM, massG, gustMPS float64) (ballastKG float64, stands bool) {
	push := Leaning(heightMM)
	push.WindMPS = gustMPS
	tip, err := Backdrop(widthMM, heightMM, massG).Tip(push, TipRule{})
	return tip.BallastKG, err == nil && gustMPS <= HighestWindMPS
}

// Backdrop returns a closed frame from the floor up, on feet BackdropFeetMM deep. massG includes what is on its feet.
func Backdrop(widthMM, heightMM, massG float64) Frame {
	return Frame{WidthMM: widthMM, HeightMM: heightMM, MassG: massG, BaseDepthMM: BackdropFeetMM,
		BaseWidthMM: widthMM, Friction: backdropFriction}
}

// Leaning returns the push of a person who leans on a frame of that height.
func Leaning(heightMM float64) Push { return Push{PushN: LeaningN, PushAtMM: min(LeaningMM, heightMM)} }
