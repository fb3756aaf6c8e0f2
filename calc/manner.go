package calc

import (
	"math"

	"garlandry/calc/measure"
)

// manner is how figures of one kind are read and written.
type manner struct {
	kind  Kind
	read  func(text string, bare measure.System) (float64, error) // nil: as a plain number, or not at all
	write func(x float64, s measure.System) string
}

// manners has no plain numbers: they are what is left.
var manners = [...]manner{
	{KindLength, measure.ParseLengthMM, measure.FormatLength},
	{KindLengths, nil, measure.FormatLength},
	{KindSmallLength, measure.ParseSmallLengthMM, measure.FormatSmallLength},
	{KindSizedTo, readSizedTo, measure.FormatSmallLength},
	{KindThinLength, measure.ParseThinLengthMM, measure.FormatThinLength},
	{KindAltitude, measure.ParseAltitudeM, measure.FormatAltitude},
	{KindTemperature, measure.ParseTemperatureC, measure.FormatTemperature},
	{KindMass, measure.ParseMassG, measure.FormatMass},
	{KindSmallMass, measure.ParseSmallMassG, measure.FormatMass},
	{KindKilograms, nil, writeKilograms},
	{KindVolume, measure.ParseVolumeL, measure.FormatVolume},
	{KindSpeed, measure.ParseSpeedMPS, measure.FormatSpeed},
	{KindPressure, measure.ParsePressurePa, measure.FormatPressure},
	{KindForce, readForce, writeForce},
	{KindAngle, readAngle, writeAngle},
	{KindPercent, readPercent, writePercent},
	{KindPart, readPart, writePart},
	{KindMoney, nil, writeMoney},
	{KindMinutes, readMinutes, writeMinutes},
	{KindHours, readHours, writeHours},
	{KindSize, nil, writeSize},
}

// mannerOf is nil for plain numbers and for what is no single figure.
func mannerOf(kind Kind) *manner {
	for i := range manners {
		if manners[i].kind == kind {
			return &manners[i]
		}
	}
	return nil
}

func writeKilograms(x float64, s measure.System) string { return measure.FormatBallast(x, s) }

func writeForce(x float64, _ measure.System) string { return measure.FormatNumber(x, 1) + " N" }

func writeAngle(x float64, _ measure.System) string { return measure.FormatAngle(x) }

func writePercent(x float64, _ measure.System) string { return measure.FormatPercent(x) }

func writePart(x float64, _ measure.System) string { return measure.FormatPercent(x * 100) }

func writeMoney(x float64, _ measure.System) string {
	return measure.FormatMoney(int(math.Round(x * 100)))
}

func writeMinutes(x float64, _ measure.System) string { return measure.FormatMinutes(x) }

func writeHours(x float64, _ measure.System) string { return measure.FormatNumber(x, 1) + " h" }

func writeSize(x float64, _ measure.System) string { return measure.FormatNumber(x, 0) + " in" }
