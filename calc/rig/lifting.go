package rig

import "math"

// LiftingConstantG is the most that may be lifted when all is best: 51 lb, of
// the revised lifting equation, NIOSH publication 94-110 (revised 2021).
const LiftingConstantG = 51 * 453.59237

// Lifting is how one person lifts something.
type Lifting struct {
	// ReachMM is from the middle between the ankles to the hands.
	ReachMM float64
	// HandsMM is the height of the hands above the floor.
	HandsMM float64
	// TravelMM is how far up or down it is moved.
	TravelMM float64
	// TwistDeg is how far the body turns.
	TwistDeg float64
	// Frequency and Coupling are the multipliers of that publication's tables
	// for how often and how good the grip; 0 means 1: now and then, good grip.
	Frequency, Coupling float64
}

// Limit is the recommended weight limit in grams: 51 lb times the multipliers
// for reach, height, travel, twist, frequency and grip of NIOSH 94-110, in its
// inch form, which its worked examples use; the metric form comes out up to 4 %
// lower. 0 when it should not be lifted so at all. Errors wrap [ErrInput].
func (l Lifting) Limit() (massG float64, err error) {
	frequency, coupling := orDefault(l.Frequency, 1), orDefault(l.Coupling, 1)
	if err := inside(
		limit{"reach", l.ReachMM, 0, 2000, "mm"},
		limit{"height of the hands", l.HandsMM, 0, 2500, "mm"},
		limit{"travel", l.TravelMM, 0, 2500, "mm"},
		limit{"twist", l.TwistDeg, 0, 180, "degrees"},
		limit{"frequency multiplier", frequency, 0.01, 1, ""},
		limit{"grip multiplier", coupling, 0.9, 1, ""},
	); err != nil {
		return 0, err
	}
	const inch = 25.4
	reach, hands, travel := l.ReachMM/inch, l.HandsMM/inch, l.TravelMM/inch
	if reach > 25 || hands > 70 || l.TwistDeg > 135 {
		return 0, nil
	}
	horizontal := 10 / max(reach, 10)
	vertical := 1 - float64(0.0075*math.Abs(hands-30))
	distance := min(1, 0.82+1.8/max(travel, 10))
	twist := 1 - float64(0.0032*l.TwistDeg)
	return LiftingConstantG * horizontal * vertical * distance * twist * frequency * coupling, nil
}
