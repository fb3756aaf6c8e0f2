package calc

import "garlandry/calc/latex"

// StepGas is the step of the working that divides the measured gas of a balloon by the usual.
const StepGas = "Times the gas"

// gasStep adds the step that gives the gas in a balloon sized to toMM.
func (r *Result) gasStep(size latex.Size, toMM, litres float64) {
	times := litres / latex.VolumeL(toMM)
	if times < 1+1e-9 && times > 1-1e-9 {
		r.step("Volume", "a sphere, π/6 × ({small_length})³", "{volume}", toMM, litres)
		return
	}
	r.step("Volume", "π/6 × ({small_length})³ × {2} for the shape, {volume} when full ("+size.FullLMark+")", "{volume}",
		toMM, times, size.VolumeL(size.FullMM()), litres)
}

// ownGas returns the size with the gas of the user's own balloons, as weighed, timed or typed, and whether it is their
// own. The pull on a scale is the lift less rubber and ribbon.
func (v Values) ownGas(in latex.LiftInput) (latex.Size, bool, error) {
	size := in.Size
	if v.Has("pulls") && v.Has("holds") {
		return size, false, v.refuse("holds", "give what it holds or what it pulls, not both", nil)
	}
	times, measured := v.Number("gas"), ""
	switch {
	case v.Has("holds"):
		times, measured = v.Number("holds")/size.VolumeL(in.ToMM), "holds"
	case v.Has("pulls"):
		usual, err := latex.Floating(in)
		if err != nil {
			return size, false, v.blame("to", err)
		}
		litres := (v.Number("pulls") + size.LatexG + in.ExtraG) / (usual.AirDensity - usual.GasDensity)
		times, measured = litres/usual.VolumeL, "pulls"
	}
	if !(times >= latex.LeastGas && times <= latex.MostGas) {
		return size, false, v.refuse(measured,
			v.say("that is {2} times the gas of a usual one: measure again", times), nil)
	}
	size.OwnGas = times
	return size, times != 1, nil
}
