package rig

import "math"

// Factors of [Line.Hold].
const (
	// KnotFactor is the share of a line's strength that a knot leaves: 50 to 90 % (from memory); the worst is used.
	KnotFactor = 0.5
	// LineFactor is how many times the load the knotted line must hold. Rope makers recommend 5 to 12 (from memory).
	LineFactor = 5.0
	// FlattestDeg is the flattest line that gets a verdict. Beyond it the pull grows fast and small errors matter.
	FlattestDeg = 60.0
)

// Line is a load on fishing line, wire or rope.
type Line struct {
	// MassG is the mass of the load.
	MassG float64
	// Points is the number of lines that carry the load, 1 to 20.
	Points int
	// AngleDeg is the angle of each line from the vertical, 0 to 80.
	AngleDeg float64
	// StrengthN is the breaking force of one new line.
	StrengthN float64
	// KnotFactor and SafetyFactor replace the constants KnotFactor and LineFactor; 0 means the constants.
	KnotFactor, SafetyFactor float64
	// OverPeople says that people can be under it.
	OverPeople bool
}

// Hold says whether the lines hold.
type Hold struct {
	// PerLineN is the pull in the worst line.
	PerLineN float64
	// AllowedN is the largest allowed pull of one line; 0 over people.
	AllowedN float64
	// Factor is the knotted line's strength divided by its pull; 0 over people and without a load.
	Factor  float64
	Verdict Verdict
	// Notes are sentences to show, none if all is well.
	Notes []string
}

// Hold returns the pull in the worst line, with a verdict. One line carries all, two carry half each. Of three or more,
// two carry all, because lines are never equally long (from memory, practice for slings). Over people there is no
// verdict. Errors wrap [ErrInput].
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
	// One part in 10⁹ allows for rounding at an exact match.
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
