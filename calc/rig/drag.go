package rig

import "math"

// Drag coefficients of whole shapes, on the area that they show the wind.
const (
	// SignDrag is the force coefficient of a signboard: EN 1991-1-4 clause 7.4.3.
	SignDrag = 1.80
	// RoundDrag is the force coefficient of an upright cylinder before its drag falls at high speed: the most in EN
	// 1991-1-4 figure 7.28, and ASCE 7-16 figure 29.4-1 for tall round chimneys (both from memory).
	RoundDrag = 1.2
	// OpenDrag is the force coefficient of a thin lattice on the area of its bars: ASCE 7-16 table 29.4-2, flat-sided
	// members, solidity under 0.1.
	OpenDrag = 2.0
	// OffCentre is how far from the middle of a signboard a gust can push, as a part of its width: EN 1991-1-4 clause
	// 7.4.3. ASCE 7-16 figure 29.3-1 has 0.2. One of two feet then carries three quarters of the push. The usual factor
	// of 1.5 is what that foot needs to hold by itself.
	OffCentre = 0.25
	// HighPush is how far above the middle of a face on the ground the wind pushes, as a part of its height: ASCE 7-16
	// figure 29.3-1. It counts for raised faces too.
	HighPush = 0.05
)

// The codes that a [Drag] can come from.
const (
	CodeEN       = "EN 1991-1-4 clause 7.4.3"
	CodeASCE     = "ASCE 7-16 figure 29.3-1"
	CodeASCEHeld = CodeASCE + " at a solidity of 0.7" // for faces a little more open than that
	CodeASCEOpen = "ASCE 7-16 table 29.4-2"
	CodeRound    = "EN 1991-1-4 clause 7.9"
)

// Drag is a force coefficient on the whole outline of a face, and the code it is taken from.
type Drag struct {
	Coefficient float64
	Code        string
}

// FaceDrag returns the greater of two codes' force coefficients for a flat face, on its whole outline. solidity is the
// share of the outline that stops the wind. EN 1991-1-4 has 1.80 on what stops it. ASCE 7-16 has a table for closed
// faces by their shape and height off the ground, less for openings of up to 30 percent, and another for open ones;
// its factor 0.85 for gusts is left out, because a gust wraps a small stand whole. Between its two tables the force on
// each square metre of bars drops at a solidity of 0.7. Here a more open face keeps that of 0.7, so that a frame which
// only grows, with the same work on it, never catches less wind. The coefficient never falls with solidity.
func FaceDrag(solidity, widthMM, heightMM, bottomMM float64) Drag {
	s := min(max(solidity, 0), 1)
	if math.IsNaN(s) {
		s = 1
	}
	drag := Drag{SignDrag * s, CodeEN}
	if open := OpenDrag * min(s, 0.1); open > drag.Coefficient {
		drag = Drag{open, CodeASCEOpen}
	}
	gap, code := 1-max(s, leastClosed), CodeASCE
	if s < leastClosed {
		code = CodeASCEHeld
	}
	closed := SolidSignDrag(widthMM/heightMM, heightMM/(bottomMM+heightMM)) * (1 - float64(gap*math.Sqrt(gap)))
	if closed *= min(s/leastClosed, 1); closed > drag.Coefficient {
		drag = Drag{closed, code}
	}
	return drag
}

// leastClosed is the solidity from which ASCE 7-16 counts a sign as solid.
const leastClosed = 0.7

// SolidSignDrag returns the force coefficient of ASCE 7-16 figure 29.3-1, cases A and B, for a solid sign or wall.
// aspect is its width over its height, clearance its height over the height of its top. Between the columns and rows
// it interpolates, beyond them it takes the nearest.
func SolidSignDrag(aspect, clearance float64) float64 {
	column, across := between(signAspects[:], aspect)
	row, up := between(signClearances[:], clearance)
	at := func(row int) float64 {
		left, right := float64(signDrags[row][column]), float64(signDrags[row][column+1])
		return (left + float64(across*(right-left))) / 100
	}
	low, high := at(row), at(row+1)
	return low + float64(up*(high-low))
}

// between returns the index of the step of a rising scale that holds x, and how far along the step it is, 0 to 1.
func between(scale []float64, x float64) (step int, part float64) {
	for step = 0; step < len(scale)-2 && x > scale[step+1]; {
		step++
	}
	part = (x - scale[step]) / (scale[step+1] - scale[step])
	return step, min(max(part, 0), 1)
}

// ASCE 7-16 figure 29.3-1: width over height in columns, height over the height of the top in rows, hundredths.
var (
	signAspects    = [...]float64{0.05, 0.1, 0.2, 0.5, 1, 2, 4, 5, 10, 20, 30, 45}
	signClearances = [...]float64{0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1}
	signDrags      = [...][12]uint8{
		{195, 190, 185, 185, 180, 180, 185, 185, 185, 190, 190, 195},
		{195, 190, 185, 180, 180, 180, 180, 180, 185, 190, 190, 195},
		{195, 190, 185, 180, 180, 180, 180, 180, 180, 185, 185, 185},
		{195, 185, 180, 175, 175, 170, 170, 170, 170, 170, 170, 175},
		{190, 185, 175, 170, 165, 160, 160, 155, 155, 155, 155, 155},
		{185, 175, 170, 160, 155, 150, 145, 145, 140, 140, 140, 140},
		{180, 170, 165, 155, 145, 140, 135, 135, 130, 130, 130, 130},
	}
)
