package calc

import (
	"strings"

	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

// sizeInput asks for a balloon size.
var sizeInput = Input{
	Key: "size", Label: "Balloon size", Kind: KindSize, Required: true,
	Help:    "The size printed on the bag, in inches: 5, 11, 18, 24, 36.",
	Example: "11",
}

// toInput asks for the inflated diameter.
var toInput = Input{
	Key:     "to",
	Label:   "Sized to",
	Kind:    KindSmallLength,
	Min:     25,
	Max:     1100,
	Help:    "The diameter it is inflated to. Left out, the usual décor size.",
	Example: "10in",
}

var latexInput = Input{
	Key:        "latex_g",
	Label:      "Your own weighs",
	Kind:       KindSmallMass,
	Min:        0.1,
	Max:        300,
	Example:    "3.1g",
	BareMetric: true,
	Advanced:   true,
	Help:       "One empty balloon of yours, in grams: weigh ten and divide by ten. Left out, the table's weight.",
}

// balloonOf returns the requested round balloon and its diameter.
func (v Values) balloonOf() (latex.Size, float64, error) {
	size, _ := latex.Find(v.Count("size"))
	if own := v.Number("latex_g"); v.Has("latex_g") {
		if own < size.LatexG/10 || own > size.LatexG*10 {
			return size, 0, v.refuse("latex_g",
				v.say("no balloon of size {0} weighs {2} g; the usual one weighs {1} g", float64(size.NominalIn), own, size.LatexG),
				nil)
		}
		size.LatexG = own
	}
	if !v.Has("to") {
		return size, size.DecorToMM(), nil
	}
	to := v.Number("to")
	low, high := size.FullMM()*latex.MinFillPct/100, size.FullMM()*latex.MaxFillPct/100
	if to < low || to > high {
		why := v.say("{small_length} is not possible for size {0}, which takes ", to, float64(size.NominalIn)) +
			inchesAnd(low, v.System()) + " to " + inchesAnd(high, v.System())
		return size, 0, v.refuse("to", why, latex.ErrInput)
	}
	return size, to, nil
}

// useBalloon names where the balloon's usual diameter, its mass and its gas come from. toMM is the most that it is
// inflated to.
func (r *Result) useBalloon(v Values, toMM float64) {
	r.useIf(!v.Has("to"), "size/decor")
	r.useIf(!v.Has("latex_g"), "size/latex")
	r.useIf(v.Has("latex_g"), "size/latex/own")
	r.useGas(v.Count("size"), toMM)
}

// useGas names where the gas in balloons of a size comes from. The gas of a full one matters only to a pear.
func (r *Result) useGas(sizeIn int, toMM float64) {
	size, _ := latex.Find(sizeIn)
	r.use("size/full", "size/pear")
	if size.PearL(toMM) > 0 {
		r.useIf(size.FullLMark == latex.MarkCommonPractice, "size/gas")
		r.useIf(size.FullLMark == latex.MarkFromMemory, "size/gas/others")
	}
}

// bareCentimetres adds a note if a bare number was read as centimetres, although it would rather be inches.
func (r *Result) bareCentimetres(v Values, size latex.Size, toMM float64) {
	inches := toMM / 10
	if v.System() != measure.Metric || strings.Trim(v.given.typed["to"], " 0123456789.,") != "" ||
		size.FillPct(toMM) > latex.MaxFillPct/2 || inches*measure.MMPerInch > size.FullMM()*latex.MaxFillPct/100 {
		return
	}
	r.note("Read as {2} cm. If you mean inches, write {2} in.", inches, inches)
}

// inchesAnd writes a balloon's diameter in inches, followed by centimetres in metric units.
func inchesAnd(mm float64, s measure.System) string {
	inches := measure.FormatSmallLength(mm, measure.Imperial)
	if s == measure.Imperial {
		return inches
	}
	return inches + " (" + measure.FormatSmallLength(mm, measure.Metric) + ")"
}

var sizeCalculator = Calculator{
	Name: "size", Title: "One balloon", Group: groupBalloon,
	Purpose: "How big, how full and how hard one balloon is when sized to a diameter",
	Inputs:  []Input{sizeInput, toInput, latexInput},
	Outputs: []Output{
		{"diameter_mm", "Across", "Diameter, to set the sizing box", KindSmallLength, true},
		{"fill_pct", "Full", "Diameter as a share of the full balloon's", KindPercent, true},
		{"circumference_mm", "Round", "What a tape measure reads round the middle", KindSmallLength, false},
		{"volume_l", "Holds", "Air or helium inside", KindVolume, false},
		{"latex_g", "Weighs empty", "Mass of the rubber", KindSmallMass, false},
		{"pressure_pa", "Presses", "How much higher the pressure is inside than outside", KindPressure, false},
	},
	Cautions: []string{latex.CautionChoking, latex.CautionAllergy, latex.CautionEyes},
	Example: Example{
		Story: "Reading room reopening: an ink-blue 11-inch sized to 9 in is round; a sphere of 9 in holds 4/3 π " +
			"11.43³ cm³ = 6.26 litres",
		Inputs: []Entry{{Key: "size", Text: "11"}, {Key: "to", Text: "9in"}},
		Expect: []Expectation{
			{Key: "diameter_mm", Value: 228.6, Within: 1e-6}, {Key: "circumference_mm", Value: 718.17, Within: 0.01},
			{Key: "volume_l", Value: 6.2550, Within: 0.001}, {Key: "fill_pct", Value: 81.818, Within: 0.001},
		},
	},
	Run: runSize,
}

func runSize(v Values, result *Result) error {
	size, to, err := v.balloonOf()
	if err != nil {
		return err
	}
	b, err := latex.Describe(size, to)
	if err != nil {
		return v.blame("to", err)
	}
	result.Notes = b.Notes
	result.useBalloon(v, to)
	result.bareCentimetres(v, size, to)
	result.use("rubber/law", "rubber/constants")
	result.figures("diameter_mm circumference_mm volume_l fill_pct latex_g pressure_pa",
		b.DiameterMM, b.CircumferenceMM, b.VolumeL, b.FillPct, b.LatexG, b.PressurePa)
	skin := size.Skin()
	result.step("Full", "size {0} when full ("+size.Mark+")", "{small_length}", float64(size.NominalIn), size.FullMM())
	result.step("Share", "{small_length} / {small_length}", "{percent}", to, size.FullMM(), b.FillPct)
	result.step("Round", "π × {small_length}", "{small_length}", to, b.CircumferenceMM)
	result.gasSteps(size, to)
	result.step("Stretch", "{small_length} / {small_length} when slack", "{2}", to, 2*skin.RadiusMM, to/(2*skin.RadiusMM))
	result.step("Pressure", "2 (thickness/radius) (1/L − 1/L⁷) (s₊ − s₋ L²)", "{pressure}", b.PressurePa)
	s := v.sketch()
	drawFull(s, size.FullMM()/2, to/2)
	s.dimension(-to/2, -size.FullMM()*0.6, to/2, -size.FullMM()*0.6, "{small_length}", to)
	result.Drawing = s.drawing("A balloon sized to {small_length} inside its full size of {small_length}", to,
		size.FullMM())
	return nil
}

// drawFull shows a balloon inside the outline of the full one.
func drawFull(s *sketch, fullRadiusMM, radiusMM float64) {
	s.circle(RoleGhost, 0, 0, fullRadiusMM)
	s.circle(RoleBalloon, 0, 0, radiusMM)
}
