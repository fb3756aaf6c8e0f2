package rig

import "math"

// SphereDrag is the drag coefficient of a smooth sphere at Reynolds numbers from 1,000 to 200,000, where measured ones
// are 0.39 to 0.48. An 11-inch balloon in 9 m/s has 170,000. Larger balloons in strong wind have less drag than this.
const SphereDrag = 0.47

// Bunch is a bunch of floating balloons on ribbons from one weight.
type Bunch struct {
	// LiftN is what it lifts, ribbons off.
	LiftN float64
	// AreaM2 is what its balloons show the wind, as if none sheltered another. See [DiscM2].
	AreaM2 float64
	// Friction is that of the weight on what it stands on.
	Friction float64
}

// BunchHold is what holds a bunch in the wind. Masses are grams.
type BunchHold struct {
	// DragN is the push of the wind on the balloons, PullN the pull in the ribbons.
	DragN, PullN float64
	// FixedG is the least mass of a weight that cannot slide: as heavy as the pull, so that nothing can lift or tip it.
	FixedG float64
	// LooseG is the least mass of a weight that only friction holds: what is left of it after the lift must hold the
	// drag.
	LooseG float64
	// LeansDeg is how far the ribbons lean from upright, 0 to 90.
	LeansDeg float64
	// LiesMPS is the wind in which they lean 45 degrees: drag equals lift. Beyond it the bunch is blown down rather
	// than floating, whatever its weight.
	LiesMPS float64
}

// DiscM2 returns the disc of a round balloon, in square metres.
func DiscM2(diameterMM float64) float64 { return math.Pi / 4 * diameterMM * diameterMM / 1e6 }

// Hold computes what holds a bunch in a gust. Drag is horizontal, lift vertical; the ribbons take the direction of
// their sum. The lift counts one and a half times, as indoors. density 0 means [AirDensity].
func (b Bunch) Hold(gustMPS, density float64) BunchHold {
	lift := max(0, b.LiftN)
	h := BunchHold{DragN: WindPressurePa(gustMPS, density) * SphereDrag * b.AreaM2}
	up := TipFactor * lift
	h.PullN = math.Sqrt(float64(h.DragN*h.DragN) + float64(up*up))
	h.FixedG = 1000 * h.PullN / gravity
	h.LooseG = h.FixedG
	if b.Friction > 0 {
		h.LooseG = max(h.FixedG, 1000*(up+h.DragN/b.Friction)/gravity)
	}
	h.LeansDeg = 180 / math.Pi * math.Atan2(h.DragN, lift)
	if perSquare := WindPressurePa(1, density) * SphereDrag * b.AreaM2; perSquare > 0 {
		h.LiesMPS = math.Sqrt(lift / perSquare)
	}
	return h
}
