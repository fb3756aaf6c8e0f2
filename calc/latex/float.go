package latex

import "math"

// Anchor of the float time: a plain 11-inch balloon blown full floats 12 to 18
// hours (common practice, no source); the middle is used, at 20 °C.
const (
	AnchorSizeIn   = 11
	AnchorMinHours = 12.0
	AnchorMaxHours = 18.0
)

// FloatHours is how long a balloon of that latex mass, blown to diameterMM,
// stays up without gel when it starts with netG left of grossG of lift; 0
// unless both are above 0 and net is less than gross, or for no such balloon.
//
// Helium leaves at a rate that goes as area over skin thickness, so the time to
// lose a given share of the volume goes as radius × thickness of the stretched
// skin, which is latex mass over radius. It floats until the share netG/grossG
// has gone. Only the scale comes from the trade's hours, so the mark is
// [MarkScaled]. Warm rubber leaks faster: activation energy of permeation 30
// kJ/mol (from memory).
func FloatHours(latexG, diameterMM, netG, grossG, celsius float64) float64 {
	if !(latexG > 0 && latexG < 1e5 && diameterMM >= 1 && celsius >= MinTempC && celsius <= MaxTempC) ||
		!(netG > 0 && grossG > netG) {
		return 0
	}
	const (
		anchorMM     = 11 * MMPerInch
		anchorLatexG = 2.9
		// Net over gross lift of the anchor in dry air at 20 °C and sea level.
		anchorShare = 0.7545
	)
	share := netG / grossG / anchorShare
	skin := (latexG / diameterMM) / (anchorLatexG / anchorMM)
	return (AnchorMinHours + AnchorMaxHours) / 2 * skin * share / permeationAgainst20C(celsius)
}

// permeationAgainst20C is how much faster helium leaks than at 20 °C.
func permeationAgainst20C(celsius float64) float64 {
	const activation = 30_000.0
	return math.Exp(activation / gasConstant * (1/kelvin(20) - 1/kelvin(celsius)))
}
