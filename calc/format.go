package calc

import (
	"math"

	"garlandry/calc/measure"
)

// format reads and writes figures of one kind.
type format struct {
	kind  Kind
	read  func(text string, bare measure.System) (float64, error) // nil reads a plain number, or nothing
	write func(x float64, s measure.System) string
}

// formats lists the ways to read and write a figure. Plain numbers are the fallback.
var formats = [...]format{
	{KindLength, measure.ParseLengthMM, measure.FormatLength},
	{KindLengths, nil, measure.FormatLength},
	{KindSmallLength, measure.ParseSmallLengthMM, measure.FormatSmallLength},
	{KindThinLength, measure.ParseThinLengthMM, measure.FormatThinLength},
	{KindAltitude, measure.ParseAltitudeM, measure.FormatAltitude},
	{KindTemperature, measure.ParseTemperatureC, measure.FormatTemperature},
	{KindMass, measure.ParseMassG, measure.FormatMass},
	{KindSmallMass, measure.ParseSmallMassG, measure.FormatMass},
	{KindKilograms, nil, writeKilograms},
	{KindVolume, measure.ParseVolumeL, measure.FormatVolume},
	{KindSpeed, measure.ParseSpeedMPS, measure.FormatSpeed},
	{KindPressure, measure.ParsePressurePa, measure.FormatPressure},
	{KindForce, readForce, measure.FormatForce},
	{KindAngle, readAngle, writeAngle},
	{KindPercent, readPercent, writePercent},
	{KindPart, readPart, writePart},
	{KindMoney, nil, writeMoney},
	{KindMinutes, readMinutes, writeMinutes},
	{KindHours, readHours, writeHours},
	{KindPerLength, nil, writePerLength},
	{KindSize, nil, writeSize},
}

// formatOf returns the format of a kind, or nil for plain numbers and kinds that are not one figure.
func formatOf(kind Kind) *format {
	for i := range formats {
		if formats[i].kind == kind {
			return &formats[i]
		}
	}
	return nil
}

func writeKilograms(x float64, s measure.System) string { return measure.FormatBallast(x, s) }

func writeAngle(x float64, _ measure.System) string { return measure.FormatAngle(x) }

func writePercent(x float64, _ measure.System) string { return measure.FormatPercent(x) }

func writePart(x float64, _ measure.System) string { return measure.FormatPercent(x * 100) }

func writeMoney(x float64, _ measure.System) string {
	return measure.FormatMoney(int(math.Round(x * 100)))
}

func writeMinutes(x float64, _ measure.System) string { return measure.FormatMinutes(x) }

func writeHours(x float64, _ measure.System) string { return measure.FormatNumber(x, 1) + " h" }

func writePerLength(perM float64, s measure.System) string {
	if s == measure.Imperial {
		return measure.FormatNumber(perM*measure.MMPerFoot/1000, 2) + " a foot"
	}
	return measure.FormatNumber(perM, 2) + " a metre"
}

func writeSize(x float64, _ measure.System) string { return measure.FormatNumber(x, 0) + " in" }
