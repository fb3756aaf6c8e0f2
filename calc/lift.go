package calc

import (
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

func liftCalculator() Calculator {
	return Calculator{
		Name: "lift", Title: "Helium", Group: groupBalloon,
		Purpose: "What a helium balloon lifts, how long it floats, and how many a cylinder fills",
		Inputs: append(sizeInputs(),
			temperatureInput("temp", "Temperature", "Of the air where it floats.", "20 °C", "22C"),
			altitudeInput("altitude", "Height above the sea", "Of the venue. Thin air lifts less."),
			Input{Key: "humidity", Label: "Humidity", Kind: KindPercent, Min: 0, Max: 100, Default: "50 %", Example: "60%", Advanced: true,
				Help: "Relative humidity of the air; moist air is a little lighter than dry."},
			Input{Key: "extra_g", Label: "Ribbon, tag, gel", Kind: KindSmallMass, Min: 0, Max: 5000, Default: "2 g", Example: "3g", BareMetric: true,
				Help: "What it carries besides itself, in grams. A metre of ribbon is about a gram: weigh yours."},
			Input{Key: "gel", Label: "Gel makes it last", Kind: KindNumber, Min: 1, Max: 30, Default: "1", Example: "10", Advanced: true,
				Help: "How many times longer it floats with drying gel inside: 1 without. The label of the gel tells; test a few."},
			Input{Key: "purity", Label: "Helium in the gas", Kind: KindPercent, Min: 60, Max: 100, Default: "100 %", Example: "92%", Advanced: true,
				Help: "Balloon gas is often 92 to 97 % helium; the label of the cylinder tells."},
			Input{Key: "cylinder_l", Label: "Cylinder", Kind: KindVolume, Min: 0.2, Max: 200, Example: "10", BareMetric: true,
				Help: "What the cylinder would hold of water, stamped on its shoulder, in litres. Give the pressure too."},
			Input{Key: "cylinder_bar", Label: "Cylinder pressure", Kind: KindPressure, Min: 1e5, Max: 3.2e7, Example: "200", BareMetric: true,
				Help: "What its gauge reads, in bar."},
		),
		Outputs: []Output{
			{"net_g", "Carries", "Lift left after the balloon and its ribbon; below 0 it sinks", KindSmallMass, true},
			{"float_h", "Floats", "About how long it stays up; 0 when it does not rise", KindHours, true},
			{"gross_g", "Lifts", "Weight of the air pushed away less that of the gas", KindSmallMass, false},
			{"ballast_g", "Weight to tie it to", "Holds it with half as much again, in whole grams", KindSmallMass, false},
			{"per_cylinder", "From one cylinder", "Balloons the cylinder fills, without losses; 0 when no cylinder was given", KindCount, false},
		},
		Cautions: latex.LiftCautions(),
		Sources: []Source{
			{"Moist air: Picard, Davis, Gläser, Fujii, Metrologia 45 (2008) 149, CIPM-2007", MarkPublished},
			{"Standard atmosphere: ISO 2533, US Standard Atmosphere 1976", MarkPublished},
			{"Helium's molar mass (IUPAC) and compressibility, Z = 1 + B p / R T with B = 11.8 cm³/mol", MarkFromMemory},
			{"Float time: a plain 11-inch floats 12 to 18 hours; other sizes scaled by radius × thickness of the skin", MarkCommonPractice},
			{"The weight at the end of the ribbon is 1.5 times the lift", MarkCommonPractice},
		},
		Example: Example{
			Story:  "Reading room reopening: a sand 11-inch blown full. Helium in dry air at 20 °C lifts 1.0377 g a litre by the ideal gas law; 11.42 litres lift 11.9 g",
			Inputs: []Entry{{Key: "size", Text: "11"}, {Key: "to", Text: "11"}, {Key: "humidity", Text: "0"}, {Key: "extra_g", Text: "1"}},
			Expect: []Expectation{{Key: "gross_g", Value: 11.8, Within: 0.15}, {Key: "float_h", Value: 15, Within: 3}},
		},
		Run: runLift,
	}
}

func runLift(v Values) (Result, error) {
	size, to, err := v.balloonOf()
	if err != nil {
		return Result{}, err
	}
	if v.Has("cylinder_l") || v.Has("cylinder_bar") {
		if err := v.needs("cylinder_l", "a pressure alone does not say how much is in the cylinder"); err != nil {
			return Result{}, err
		}
		if err := v.needs("cylinder_bar", "the size alone does not say how much is in the cylinder"); err != nil {
			return Result{}, err
		}
	}
	air := latex.Place{TempC: v.Number("temp"), AltitudeM: v.Number("altitude"), HumidityPct: v.Number("humidity")}
	in := latex.LiftInput{
		Size: size, ToMM: to, Air: air, ExtraG: v.Number("extra_g"), PurityPct: v.Number("purity"), GelFactor: v.Number("gel"),
		Cylinder: latex.Cylinder{Litres: v.Number("cylinder_l"), GaugeBar: v.Number("cylinder_bar") / measure.PascalPerBar, TempC: air.TempC},
	}
	lift, err := latex.Floating(in)
	if err != nil {
		return Result{}, v.refuse("to", err.Error(), err)
	}
	result := Result{Outputs: map[string]any{}, Notes: lift.Notes}
	result.figures("gross_g net_g float_h ballast_g",
		lift.GrossG, lift.NetG, lift.FloatHours, lift.BallastG)
	result.counts("per_cylinder",
		lift.PerCylinder)
	result.step("Volume", "π/6 × ("+v.small(to)+")³", measure.FormatVolume(lift.VolumeL, v.System()))
	result.step("Air", "moist air at "+measure.FormatTemperature(air.TempC, v.System()), number(lift.AirDensity, 4)+" g/L")
	result.step("Gas", "helium, pressed by the rubber with "+measure.FormatPressure(lift.RubberPa, v.System()), number(lift.GasDensity, 4)+" g/L")
	result.step("Lifts", number(lift.VolumeL, 2)+" L × ("+number(lift.AirDensity, 4)+" − "+number(lift.GasDensity, 4)+")", v.mass(lift.GrossG))
	result.step("Carries", v.mass(lift.GrossG)+" − rubber "+v.mass(size.LatexG)+" − extras "+v.mass(in.ExtraG), v.mass(lift.NetG))
	result.step("Weight", "carried × "+number(latex.BallastFactor, 1)+", up to a whole gram", v.mass(lift.BallastG))
	result.step("Floats", "until what it carries has leaked away ("+lift.FloatMark+")", number(lift.FloatHours, 1)+" h")
	if in.Cylinder.Litres > 0 {
		result.step("Cylinder", "usable gas / gas in one balloon, rounded down", whole(lift.PerCylinder))
	}
	var s sketch
	s.line(RoleGuide, at(0, -to/2), at(0, -to*1.6))
	s.circle(RoleBalloon, at(0, 0), to/2)
	s.box(RoleLoad, -to*0.12, -to*1.8, to*0.24, to*0.2)
	s.text(at(0, -to*1.95), v.mass(lift.BallastG))
	if lift.NetG > 0 {
		s.arrow(RoleLoad, at(0, to*0.6), at(0, to*0.9), v.mass(lift.NetG)+" up")
	}
	result.Drawing = s.drawing("A helium balloon of " + v.small(to) + " on its weight")
	return result, nil
}
