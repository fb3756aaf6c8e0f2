package rig

import "math"

// Factors of [Line.Hold].
const (
	// KnotFactor is the share of a line's strength left by a knot: knots keep 50 to
	// 90 % (from memory), the worst is used.
	KnotFactor = 0.5
	// LineFactor is how many times stronger the knotted line must be than its
	// load: rope makers give 5 to 12 (from memory).
	LineFactor = 5.0
	// FlattestDeg is the flattest line that gets a verdict: beyond it the pull
	// grows fast and small errors matter.
	FlattestDeg = 60.0
)

// Line is something hung on fishing line, wire or rope.
type Line struct {
	// MassG is the mass that hangs.
	MassG float64
	// Points is the number of lines that carry it, 1 to 20.
	Points int
	// AngleDeg is how far each line leans from the vertical, 0 to 80.
	AngleDeg float64
	// StrengthN is the force at which one new line breaks.
	StrengthN float64
	// KnotFactor and SafetyFactor replace the constants KnotFactor and
	// LineFactor; 0 keeps them.
	KnotFactor, SafetyFactor float64
	// OverPeople says that somebody can be under it.
	OverPeople bool
}

// Hold is whether the lines hold.
type Hold struct {
	// PerLineN is the pull in the worst line.
	PerLineN float64
	// AllowedN is the most that one line may pull; 0 over people.
	AllowedN float64
	// Factor is how many times stronger the knotted line is than its pull; 0
	// over people and for nothing hung.
	Factor  float64
	Verdict Verdict
	// Notes are sentences a person should read, none when all is well.
	Notes []string
}

// Hold returns the pull in the worst line, with a verdict. One line carries all, two carry half each. Of three or
// more, two carry all, because lines are never equally long (from memory, practice for slings). Over people there is
// no verdict. Errors wrap [ErrInput].
func (l Line) Hold() (Hold, error) {
	knot, safety := orDefault(l.KnotFactor, KnotFactor), orDefault(l.SafetyFactor, LineFactor)
	if err := inside(
		limit{"weight", l.MassG, 0, 1e6, "g"},
		limit{"points", float64(l.Points), 1, 20, ""},
		limit{"angle from the vertical", l.AngleDeg, 0, 80, "degrees"},
		limit{"strength of one line", l.StrengthN, 0.1, 1e6, "N"},
		limit{"knot factor", knot, 0.1, 1, ""},
		limit{"safety factor", safety, 1, 50, ""},
	); err != nil {
		return Hold{}, err
	}
	carrying := float64(min(l.Points, 2))
	h := Hold{PerLineN: WeightN(l.MassG) / carrying / math.Cos(l.AngleDeg*math.Pi/180)}
	if l.OverPeople {
		h.Verdict = VerdictNone
		h.Notes = []string{"Over people there is no answer here: use the venue's rated points and a licensed rigger."}
		return h, nil
	}
	h.AllowedN = l.StrengthN * knot / safety
	if h.PerLineN > 0 {
		h.Factor = l.StrengthN * knot / h.PerLineN
	}
	h.conclude(l)
	return h, nil
}

func (h *Hold) conclude(l Line) {
	h.Verdict = VerdictHolds
	// One part in 10⁹ allows for rounding at an exact fit.
	if h.PerLineN > h.AllowedN*(1+1e-9) {
		h.Verdict = VerdictDoNotUse
		add(&h.Notes, "The worst line is not strong enough: use stronger line, hang less or let it lean less.")
	}
	if l.AngleDeg > FlattestDeg {
		h.Verdict = VerdictDoNotUse
		add(&h.Notes, "The lines lean too far: raise the points or move them in until they lean less than 60 degrees.")
	}
	if l.Points == 1 {
		add(&h.Notes, "With one line it can turn, and one fault drops it: use at least two points.")
	}
	if l.Points > 2 {
		add(&h.Notes, "Counted as if two lines carried it all: lines are never equally long.")
	}
}
