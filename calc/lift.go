package calc

import (
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

var liftCalculator = Calculator{
	Name: "lift", Title: "Helium", Group: groupBalloon,
	Purpose: "What a helium balloon lifts, how long it floats, and how many a cylinder fills",
	Inputs: []Input{
		sizeInput,
		toInput,
		{Key: "temp", Label: "Temperature", Kind: KindTemperature, Min: latex.MinTempC, Max: latex.MaxTempC,
			Default: "20 °C", Example: "22C", Help: "Of the air where it floats."},
		{Key: "altitude", Label: "Height above the sea", Kind: KindAltitude, Min: latex.MinAltitudeM,
			Max: latex.MaxAltitudeM, Default: "0 m", Example: "300m", Advanced: true,
			Help: "Of the venue. Thin air lifts less."},
		{Key: "humidity", Label: "Humidity", Kind: KindPercent, Min: 0, Max: 100, Default: "50 %",
			Example: "60%", Advanced: true, Help: "Relative humidity of the air; moist air is a little lighter than dry."},
		{Key: "extra_g", Label: "Ribbon, tag, gel", Kind: KindSmallMass, Min: 0, Max: 5000,
			Default: "2 g", Example: "3g", BareMetric: true,
			Help: "What it carries besides itself, in grams. A metre of ribbon is about a gram: weigh yours."},
		latexInput,
		{Key: "pulls", Label: "One of yours pulls", Kind: KindSmallMass, Min: 0.1, Max: 2000, Example: "8 g",
			BareMetric: true, Advanced: true,
			Help: "Set a weight on a kitchen scale to zero, then tie the balloon with its ribbon to it: how much " +
				"less it reads. It gives the gas in yours."},
		{Key: "holds", Label: "One of yours holds", Kind: KindVolume, Min: 0.2, Max: 1000, Example: "14 L",
			BareMetric: true, Advanced: true,
			Help: "Time a pump or valve of known litres a minute: litres a minute × minutes."},
		{Key: "gas", Label: "How much more yours hold", Kind: KindNumber, Min: latex.LeastGas, Max: latex.MostGas,
			Default: "1", Example: "1.1", Advanced: true,
			Help: "1 is as usual, 1.1 a tenth more. A measured one sets it."},
		{
			Key:      "gel",
			Label:    "Gel makes it last",
			Kind:     KindNumber,
			Min:      0.1,
			Max:      30,
			Default:  "1",
			Example:  "10",
			Advanced: true,
			Help:     "How many times longer it floats with drying gel inside; 1 without. See the gel's label and test a few.",
		},
		{Key: "floated", Label: "One of yours floated", Kind: KindHours, Min: 0.5, Max: 2000, Example: "20 h", Advanced: true,
			Help: "How long one like this stayed up for you. It replaces the estimate."},
		{Key: "purity", Label: "Helium in the gas", Kind: KindPercent, Min: 60, Max: 100,
			Default: "100 %", Example: "92%", Advanced: true,
			Help: "Balloon gas is often 92 to 97 % helium; see the cylinder's label."},
		{Key: "cylinder_l", Label: "Cylinder", Kind: KindVolume, Min: 0.2, Max: 200, Example: "10", BareMetric: true,
			Help: "Its water volume in litres, stamped on its shoulder. Give the pressure too."},
		{Key: "cylinder_bar", Label: "Cylinder pressure", Kind: KindPressure, Min: 1e5,
			Max: 3.2e7, Example: "200", BareMetric: true, Help: "What its gauge reads, in bar."},
		{Key: "cylinder_gas", Label: "Rated gas of the cylinder", Kind: KindVolume, Min: 5, Max: 20_000,
			Example: "50 cu ft", BareMetric: true,
			Help: "If it is sold by its gas: 50 cu ft. Instead of size and pressure."},
	},
	Outputs: []Output{
		{"net_g", "Carries", "Lift left after the balloon and its ribbon; below 0 it sinks", KindSmallMass, true},
		{"float_h", "Floats", "About how long it stays up; 0 when it does not rise", KindHours, true},
		{"gross_g", "Lifts", "Weight of the air pushed away less that of the gas", KindSmallMass, false},
		{"ballast_g", "Weight to tie it to", "Holds it with half as much again, in whole grams", KindSmallMass, false},
		{"per_cylinder", "From one cylinder", "Balloons the cylinder fills, without losses; only with a cylinder",
			KindCount, false},
	},
	Cautions: []string{latex.CautionHelium, latex.CautionRelease, latex.CautionChoking, latex.CautionAllergy},
	Example: Example{
		Story: "Reading room reopening: a sand 11-inch blown full. Helium in dry air at 20 °C lifts 1.0377 g a litre by " +
			"the ideal gas law; half a cubic foot, 14.16 litres, lifts 14.7 g",
		Inputs: []Entry{{Key: "size", Text: "11"}, {Key: "to", Text: "11in"}, {Key: "humidity", Text: "0"},
			{Key: "extra_g", Text: "1"}},
		Expect: []Expectation{{Key: "gross_g", Value: 14.6, Within: 0.15}, {Key: "float_h", Value: 15, Within: 3}},
	},
	Run: runLift,
}

// StepFloats is the step of the working that divides the measured float time by the estimate.
const StepFloats = "Times as long"

func runLift(v Values, result *Result) error {
	in, ownGas, err := v.liftInput()
	if err != nil {
		return err
	}
	lift, err := latex.Floating(in)
	if err != nil {
		return v.blame("to", err)
	}
	own := v.Has("floated")
	if own && !(lift.FloatHours > 0) {
		return v.refuse("floated", "this one is too heavy to float: check its size and weight first",
			nil)
	}
	times := in.GelFactor
	if own {
		times *= v.Number("floated") / lift.FloatHours
		lift.FloatHours, lift.FloatMark = v.Number("floated"), MarkMeasured
	}
	result.Notes = lift.Notes
	result.use("air/moist", "air/standard", "helium", "rubber/law", "rubber/constants")
	result.useBalloon(v, in.ToMM)
	result.useFloat(lift, own)
	result.figures("gross_g net_g float_h ballast_g",
		lift.GrossG, lift.NetG, lift.FloatHours, lift.BallastG)
	result.useIf(v.Has("cylinder_gas"), "cylinder/rated")
	liftWorking(result, in, lift)
	result.useIf(ownGas, "size/gas/own")
	if own {
		result.step(StepFloats, "yours / the estimate for a plain one", "{2}", times)
	}
	if in.Cylinder.Given() {
		result.counts("per_cylinder",
			lift.PerCylinder)
		result.step("Cylinder", "usable gas / gas in one balloon, rounded down", "{0}", float64(lift.PerCylinder))
	}
	result.Drawing = liftDrawing(v.sketch(), in.ToMM, lift)
	return nil
}

// liftInput returns the balloon, the air and the cylinder that were typed, and whether the gas in the balloon was
// measured.
func (v Values) liftInput() (in latex.LiftInput, ownGas bool, err error) {
	size, to, err := v.balloonOf()
	if err != nil {
		return in, false, err
	}
	air := latex.Place{TempC: v.Number("temp"), AltitudeM: v.Number("altitude"), HumidityPct: v.Number("humidity")}
	in = latex.LiftInput{Size: size, ToMM: to, Air: air, ExtraG: v.Number("extra_g"), PurityPct: v.Number("purity"),
		GelFactor: v.Number("gel")}
	if in.Cylinder, err = v.cylinder(air); err != nil {
		return in, false, err
	}
	in.Size, ownGas, err = v.ownGas(in)
	return in, ownGas, err
}

// cylinder returns the cylinder by its water volume and pressure, or by its rated gas; the zero one if none was typed.
func (v Values) cylinder(air latex.Place) (latex.Cylinder, error) {
	if v.Has("cylinder_gas") {
		if v.Has("cylinder_l") || v.Has("cylinder_bar") {
			return latex.Cylinder{}, v.refuse("cylinder_gas", "give the rated gas or size and pressure, not both", nil)
		}
		return latex.Cylinder{RatedL: v.Number("cylinder_gas")}, nil
	}
	if v.Has("cylinder_l") || v.Has("cylinder_bar") {
		if err := v.needs("cylinder_l", "a pressure alone does not say how much is in the cylinder"); err != nil {
			return latex.Cylinder{}, err
		}
		if err := v.needs("cylinder_bar", "the size alone does not say how much is in the cylinder"); err != nil {
			return latex.Cylinder{}, err
		}
	}
	return latex.Cylinder{Litres: v.Number("cylinder_l"), GaugeBar: v.Number("cylinder_bar") / measure.PascalPerBar,
		TempC: air.TempC}, nil
}

// useFloat names the sources of the float time and of the weight.
func (r *Result) useFloat(lift latex.Lift, own bool) {
	r.useIf(own, "float/own")
	if !own && lift.FloatHours > 0 {
		r.use("float", "float/warmth")
	}
	r.useIf(lift.BallastG > 0, "helium/weight")
}

// liftWorking adds the steps from the volume to the hours.
func liftWorking(result *Result, in latex.LiftInput, lift latex.Lift) {
	result.gasSteps(in.Size, in.ToMM)
	result.step("Air", "moist air at {temperature}", "{4} g/L", in.Air.TempC, lift.AirDensity)
	result.step("Gas", "helium, pressed by the rubber with {pressure}", "{4} g/L", lift.RubberPa, lift.GasDensity)
	result.step("Lifts", "{2} L × ({4} − {4})", "{mass}", lift.VolumeL, lift.AirDensity, lift.GasDensity, lift.GrossG)
	result.step("Carries", "{mass} − rubber {mass} − extras {mass}", "{mass}", lift.GrossG, in.Size.LatexG, in.ExtraG,
		lift.NetG)
	result.step("Weight", "carried × {1}, up to a whole gram", "{mass}", latex.BallastFactor, lift.BallastG)
	until := "until what it carries has leaked away (" + lift.FloatMark + ")"
	if !(lift.FloatHours > 0) {
		until = "it does not rise"
	}
	result.step("Floats", until, "{1} h", lift.FloatHours)
}

// liftDrawing draws the balloon, its weight and what it carries.
func liftDrawing(s *sketch, to float64, lift latex.Lift) *Drawing {
	s.line(RoleGuide, 0, -to/2, 0, -to*1.6)
	s.circle(RoleBalloon, 0, 0, to/2)
	s.box(RoleLoad, -to*0.12, -to*1.8, to*0.24, to*0.2)
	s.text(0, -to*1.95, "{mass}", lift.BallastG)
	if lift.NetG > 0 {
		s.arrow(RoleLoad, 0, to*0.6, 0, to*0.9, "{mass} up", lift.NetG)
	}
	return s.drawing("A helium balloon of {small_length} on its weight", to)
}
