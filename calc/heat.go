package calc

import (
	"math"

	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

var heatCalculator = Calculator{
	Name: "heat", Title: "Filled cool, shown warm", Group: groupBalloon,
	Purpose: "How a balloon grows or shrinks between where it is filled and where it is shown",
	Inputs: []Input{
		sizeInput,
		toInput,
		{Key: "fill_temp", Label: "Temperature when filling", Kind: KindTemperature, Min: latex.MinTempC,
			Max: latex.MaxTempC, Default: "20 °C", Example: "18C", Help: "Of the room or cellar you fill in."},
		{Key: "show_temp", Label: "Temperature at the show", Kind: KindTemperature, Min: latex.MinTempC,
			Max: latex.MaxTempC, Default: "30 °C", Example: "35C",
			Help: "The warmest it gets around the balloons: a hall in the afternoon, a window, the car."},
		{Key: "fill_altitude", Label: "Height above the sea when filling", Kind: KindAltitude,
			Min: latex.MinAltitudeM, Max: latex.MaxAltitudeM, Default: "0 m", Example: "300m", Advanced: true,
			Help: "Matters only when the venue lies a few hundred metres higher or lower."},
		{Key: "show_altitude", Label: "Height above the sea at the show", Kind: KindAltitude,
			Min: latex.MinAltitudeM, Max: latex.MaxAltitudeM, Default: "0 m", Example: "300m", Advanced: true,
			Help: "Thin air lets a balloon grow: about a tenth in volume per kilometre."},
		{
			Key:      "became",
			Label:    "One of yours became",
			Kind:     KindSmallLength,
			Min:      20,
			Max:      1200,
			Example:  "10.4in",
			Advanced: true,
			Help: "Fill one to the size above at the first temperature, then measure it at the second. " +
				"Your rubber may stretch more or less than the formula's.",
		},
		{Key: "growth", Label: "How much more yours grow", Kind: KindNumber, Min: latex.LeastGrowth,
			Max: latex.MostGrowth, Default: "1", Example: "1.2", Advanced: true,
			Help: "1 is as calculated, 1.2 a fifth more. A measured one sets it."},
	},
	Outputs: []Output{
		{"show_diameter_mm", "Will be", "Diameter at the show of a balloon filled to the size above", KindSmallLength, true},
		{"fill_to_mm", "Fill it to", "Diameter to fill to for the size above at the show", KindSmallLength,
			true},
		{"fill_pct_at_show", "Full at the show",
			"Diameter at the show as a share of the full balloon's; above 100 it may burst", KindPercent, false},
		{"volume_ratio", "Volume grows by", "Volume at the show over volume when filled", KindNumber, false},
	},
	Cautions: []string{latex.CautionHeat, latex.CautionEyes, latex.CautionChoking},
	Example: Example{
		Story: "Reading room reopening: coral 11-inch sized to 9 in at 10 °C in the hall store, 35 °C under the " +
			"glass roof. Charles alone would give 308.15/283.15 = 1.088 of the volume",
		Inputs: []Entry{{Key: "size", Text: "11"}, {Key: "to", Text: "9in"}, {Key: "fill_temp", Text: "10 C"},
			{Key: "show_temp", Text: "95F"}},
		Expect: []Expectation{{Key: "volume_ratio", Value: 1.088, Within: 0.006},
			{Key: "show_diameter_mm", Value: 235.1, Within: 0.6}},
	},
	Run: runHeat,
}

// StepGrowth is the step of the working that divides the measured growth by the calculated one.
const StepGrowth = "Times the growth"

func runHeat(v Values, result *Result) error {
	size, to, err := v.balloonOf()
	if err != nil {
		return err
	}
	fill := latex.Place{TempC: v.Number("fill_temp"), AltitudeM: v.Number("fill_altitude")}
	show := latex.Place{TempC: v.Number("show_temp"), AltitudeM: v.Number("show_altitude")}
	g, err := latex.Heat(size, to, fill, show)
	if err != nil {
		return v.blame("to", err)
	}
	times := v.Number("growth")
	if v.Has("became") {
		growth := g.ShowMM - to
		if math.Abs(growth) < 0.5 {
			return v.refuse("became", "nothing changes between the two places, so there is nothing to measure", nil)
		}
		times = (v.Number("became") - to) / growth
		if !(times >= latex.LeastGrowth && times <= latex.MostGrowth) {
			return v.refuse("became",
				v.say("that is {2} times the calculated growth of {thin_length}: measure again", times, growth), nil)
		}
	}
	g = g.Times(to, times, show)
	result.Notes = g.Notes
	result.use("heat/gas", "rubber/law", "rubber/constants", "air/standard")
	result.useBalloon(v, math.Max(g.ShowMM, g.FillToMM))
	result.bareCentimetres(v, size, to)
	result.figures("show_diameter_mm volume_ratio fill_to_mm fill_pct_at_show",
		g.ShowMM, g.VolumeRatio, g.FillToMM, g.FillPctAtShow)
	result.step("When filled", "air of {pressure} and rubber of {pressure} at {temperature}", "{small_length}",
		g.FillAirPa, g.FillPressurePa, fill.TempC, to)
	charles := (show.TempC + measure.ZeroCelsiusK) / (fill.TempC + measure.ZeroCelsiusK) * g.FillAirPa / g.ShowAirPa
	result.step("Gas alone", "kelvin at the show / kelvin when filled × air / air", "{4}", charles)
	result.step("With the rubber", "air of {pressure} and rubber of {pressure}, same gas", "{4}", g.ShowAirPa,
		g.ShowPressurePa, g.VolumeRatio)
	result.step("At the show", "{small_length}, until it holds {4} times as much", "{small_length}", to,
		g.VolumeRatio, g.ShowMM)
	if times != 1 {
		result.use("heat/own")
		result.step(StepGrowth, "yours / calculated ("+MarkMeasured+")", "{2}", times)
	}
	result.step("Fill to", "the size that becomes {small_length}", "{small_length}", to, g.FillToMM)
	s := v.sketch()
	larger := max(g.ShowMM, to) // it may shrink
	s.circle(RoleGhost, 0, 0, larger/2)
	s.circle(RoleBalloon, 0, 0, min(g.ShowMM, to)/2)
	level := larger * 0.62
	s.dimension(-to/2, -level, to/2, -level, "{small_length} filled", to)
	s.dimension(-g.ShowMM/2, level, g.ShowMM/2, level, "{small_length} shown", g.ShowMM)
	result.Drawing = s.drawing("The balloon as filled, {small_length}, and at the show, {small_length}", to, g.ShowMM)
	return nil
}
