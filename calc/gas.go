package calc

import "garlandry/calc/latex"

// StepGas is the step of the working that divides the measured gas of a balloon by the usual.
const StepGas = "Times the gas"

// gasSteps adds the steps that give the gas in a balloon sized to toMM: the usual, and times it for one that was
// measured.
func (r *Result) gasSteps(size latex.Size, toMM float64) {
	own, label := size.OwnGas, "Volume"
	size.OwnGas = 0
	usual := size.VolumeL(toMM)
	measured := own > 0 && own != 1
	if measured {
		label = "Usual volume"
	}
	if pear := size.PearL(toMM); pear > 0 {
		r.step(label, "π/6 × ({small_length})³ × {2} for the shape, {volume} when full ("+size.FullLMark+")",
			"{volume}", toMM, usual/(usual-pear), size.FullL, usual)
	} else {
		r.step(label, "a sphere, π/6 × ({small_length})³", "{volume}", toMM, usual)
	}
	if measured {
		r.step(StepGas, "yours / the usual ("+MarkMeasured+")", "{2}", own)
		r.step("Volume", "{volume} × {2}", "{volume}", usual, own, own*usual)
	}
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
