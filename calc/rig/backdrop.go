package rig

import "math"

// Assumptions about a frame whose feet were not measured. All are from memory.
const (
	// BackdropFeetMM is the depth of its feet, front to back.
	BackdropFeetMM = 600.0
	// LeaningN is the force of a person who leans on it at LeaningMM above the floor. A frame must withstand this
	// indoors too.
	LeaningN, LeaningMM = 50.0, 1200.0
	// BumpN is the force of somebody who bumps into a column or a digit.
	BumpN = 10.0
	// StakeN is what one stake of 30 cm in firm grass holds along a line at 45 degrees.
	StakeN = 200.0
)

// SafeGustMPS returns the gust to weigh a stand down for, so that it need not come down before the expected gust: that
// gust over [TakeDownPart], but no more than [HighestWindMPS], above which no weight is enough.
func SafeGustMPS(expectedMPS float64) float64 { return min(expectedMPS/TakeDownPart, HighestWindMPS) }

// WithLines returns the frame with that many lines from its top to stakes in front, and as many behind, at 45 degrees.
// Those of a round column go to the corners of a square about it. stakeN is what one stake holds along its line. Only
// the lines on the windward side pull.
func (f Frame) WithLines(lines int, stakeN float64) Frame {
	f.LinesN, f.LinesAtMM = float64(lines)*stakeN*math.Sqrt2/2, f.BottomMM+f.HeightMM
	if f.Round {
		f.LinesN *= math.Sqrt2 / 2
	}
	return f
}
