package latex

import "math"

// The float time is scaled from this reference: a plain 11-inch balloon filled full floats 12 to 18 hours (common
// practice, no source). The middle is used, at 20 °C.
const (
	AnchorSizeIn   = 11
	AnchorMinHours = 12.0
	AnchorMaxHours = 18.0
)

// FloatHours returns how long a balloon with that latex mass, which holds as much as a sphere of diameterMM, floats
// without gel if it starts with netG of its grossG of lift left. It returns 0 unless both are above 0 and net is less
// than gross, or for an impossible balloon.
//
// Helium leaks at a rate proportional to area over skin thickness. So the time to lose a given share of the volume is
// proportional to radius times the thickness of the stretched skin, which is latex mass over radius. The balloon floats
// until the share netG/grossG is lost. Only the scale comes from practice, so the mark is [MarkScaled]. Warm rubber
// leaks faster: activation energy of permeation 30 kJ/mol (from memory).
func FloatHours(latexG, diameterMM, netG, grossG, celsius float64) float64 {
	if !(latexG > 0 && latexG < 1e5 && diameterMM >= 1 && celsius >= MinTempC && celsius <= MaxTempC) ||
		!(netG > 0 && grossG > netG) {
		return 0
	}
	const (
		anchorMM     = 300.15 // of a sphere of half a cubic foot, a full 11-inch
		anchorLatexG = 2.9
		// Net over gross lift of the reference in dry air at 20 °C and sea level.
		anchorShare = 0.8005
	)
	share := netG / grossG / anchorShare
	skin := (latexG / diameterMM) / (anchorLatexG / anchorMM)
	return (AnchorMinHours + AnchorMaxHours) / 2 * skin * share / permeationAgainst20C(celsius)
}

// permeationAgainst20C returns how many times faster helium leaks than at 20 °C.
func permeationAgainst20C(celsius float64) float64 {
	const activation = 30_000.0
	return math.Exp(activation / gasConstant * (1/kelvin(20) - 1/kelvin(celsius)))
}
