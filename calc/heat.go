package calc

import (
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

func temperatureInput(key, label, help, fallback, example string) Input {
	return Input{Key: key, Label: label, Help: help, Kind: KindTemperature, Min: latex.MinTempC, Max: latex.MaxTempC, Default: fallback, Example: example}
}

func altitudeInput(key, label, help string) Input {
	return Input{Key: key, Label: label, Help: help, Kind: KindAltitude, Min: latex.MinAltitudeM, Max: latex.MaxAltitudeM, Default: "0 m", Example: "300m", Advanced: true}
}

func heatCalculator() Calculator {
	return Calculator{
		Name: "heat", Title: "Filled cool, shown warm", Group: groupBalloon,
		Purpose: "How a balloon grows or shrinks between where it is filled and where it is shown",
		Inputs: append(sizeInputs(),
			temperatureInput("fill_temp", "Temperature when filling", "Of the room or cellar you fill in.", "20 °C", "18C"),
			temperatureInput("show_temp", "Temperature at the show", "The warmest it gets where the balloons are: a hall in the afternoon, a window, the car on the way.", "30 °C", "35C"),
			altitudeInput("fill_altitude", "Height above the sea when filling", "Only matters when the venue lies some hundred metres higher or lower."),
			altitudeInput("show_altitude", "Height above the sea at the show", "Thin air lets a balloon grow: about a tenth of its volume for a kilometre."),
		),
		Outputs: []Output{
			{"show_diameter_mm", "Will be", "Diameter at the show of a balloon filled to the wished size", KindSmallLength, true},
			{"fill_to_mm", "Fill it to", "Diameter to fill to, so that it has the wished size at the show", KindSmallLength, true},
			{"fill_pct_at_show", "Full at the show", "Diameter at the show as a share of the full balloon's; above 100 it is close to bursting", KindPercent, false},
			{"volume_ratio", "Volume grows by", "Volume at the show over volume when filled", KindNumber, false},
		},
		Cautions: latex.HeatCautions(),
		Sources: []Source{
			{"Gas law with the pressure of the rubber, n R T = (air + rubber) V; Charles's law when the rubber presses on nothing", MarkPublished},
			{"Thin sphere of Mooney-Rivlin rubber with the constants of Müller & Strehlow, Lecture Notes in Physics 637 (2004)", MarkPublished},
			{"Standard atmosphere: ISO 2533, US Standard Atmosphere 1976", MarkPublished},
		},
		Example: Example{
			Story:  "Reading room reopening: coral 11-inch sized to 10 in at 10 °C in the hall store, 35 °C under the glass roof. Charles alone would give 308.15/283.15 = 1.088 of the volume",
			Inputs: []Entry{{Key: "size", Text: "11"}, {Key: "to", Text: "10"}, {Key: "fill_temp", Text: "10 C"}, {Key: "show_temp", Text: "95F"}},
			Expect: []Expectation{{Key: "volume_ratio", Value: 1.088, Within: 0.006}, {Key: "show_diameter_mm", Value: 261.3, Within: 0.6}},
		},
		Run: runHeat,
	}
}

func runHeat(v Values) (Result, error) {
	size, to, err := v.balloonOf()
	if err != nil {
		return Result{}, err
	}
	fill := latex.Place{TempC: v.Number("fill_temp"), AltitudeM: v.Number("fill_altitude")}
	show := latex.Place{TempC: v.Number("show_temp"), AltitudeM: v.Number("show_altitude")}
	g, err := latex.Heat(size, to, fill, show)
	if err != nil {
		return Result{}, v.refuse("to", err.Error(), err)
	}
	result := Result{Outputs: map[string]any{}, Notes: g.Notes}
	result.figures("show_diameter_mm volume_ratio fill_to_mm fill_pct_at_show",
		g.ShowMM, g.VolumeRatio, g.FillToMM, g.FillPctAtShow)
	pascal := func(pa float64) string { return measure.FormatPressure(pa, v.System()) }
	result.step("When filled", "air of "+pascal(g.FillAirPa)+" and rubber of "+pascal(g.FillPressurePa)+" at "+measure.FormatTemperature(fill.TempC, v.System()), v.small(to))
	charles := (show.TempC + measure.ZeroCelsiusK) / (fill.TempC + measure.ZeroCelsiusK) * g.FillAirPa / g.ShowAirPa
	result.step("Gas alone", "kelvin at the show / kelvin when filled × air / air", number(charles, 4))
	result.step("With the rubber", "air of "+pascal(g.ShowAirPa)+" and rubber of "+pascal(g.ShowPressurePa)+", same gas", number(g.VolumeRatio, 4))
	result.step("At the show", v.small(to)+" × cube root of "+number(g.VolumeRatio, 4), v.small(g.ShowMM))
	result.step("Fill to", "the size that becomes "+v.small(to), v.small(g.FillToMM))
	var s sketch
	s.circle(RoleGhost, at(0, 0), g.ShowMM/2)
	s.circle(RoleBalloon, at(0, 0), to/2)
	level := g.ShowMM * 0.62
	s.dimension(at(-to/2, -level), at(to/2, -level), v.small(to)+" filled")
	s.dimension(at(-g.ShowMM/2, level), at(g.ShowMM/2, level), v.small(g.ShowMM)+" shown")
	result.Drawing = s.drawing("The balloon as filled, " + v.small(to) + ", and at the show, " + v.small(g.ShowMM))
	return result, nil
}
