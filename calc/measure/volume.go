package measure

import (
	"math"
	"strings"
)

var volumeUnits = []unit{
	{"ml|millilitre|millilitres|milliliter|milliliters", 0.001, "metric", ""},
	{"cl|centilitre|centilitres", 0.01, "metric", ""},
	{"l|ltr|litre|litres|liter|liters", 1, "metric", ""},
	{"cbm|cubic m|cubic metre|cubic metres|cubic meter|cubic meters", 1000, "metric", ""},
	{"cuft|cu ft|cu feet|cubic ft|cubic foot|cubic feet|cft", LitresPerCuFt, "imperial", ""},
	{"gal|gallon|gallons", LitresPerGallon, "imperial", ""},
}

var volume = quantity{want: "a volume such as 480 L, 1.2 m3 or 17 cu ft", units: volumeUnits, metric: "l",
	imperial: "cuft", max: 1e9}

var cubeMarks = [...][2]string{{"m^3", "cbm"}, {"m3", "cbm"}, {"ft^3", "cuft"}, {"ft3", "cuft"}}

// ParseVolumeL reads a volume in litres, 0 to 1 million m3: "480 L", "1.2 m3",
// "17 cu ft", "2 gal" (US gallons). A bare number means litres (Metric) or
// cubic feet (Imperial).
func ParseVolumeL(text string, bare System) (float64, error) {
	cubes := plain(text)
	for _, mark := range cubeMarks {
		cubes = strings.ReplaceAll(cubes, mark[0], mark[1])
	}
	litres, err := volume.read(cubes, bare)
	if failure, ok := err.(*Error); ok {
		failure.Text = text
	}
	return litres, err
}

// FormatVolume writes litres or cubic feet: to the nearest hundredth below 10, to the nearest tenth below 1000, else
// whole.
func FormatVolume(litres float64, s System) string {
	value, name := litres, " L"
	if s == Imperial {
		value, name = litres/LitresPerCuFt, " cu ft"
	}
	return decimal(value, volumePlaces(value)) + name
}

func volumePlaces(value float64) int {
	switch size := math.Abs(value); {
	case size < 10:
		return 2
	case size < 1000:
		return 1
	}
	return 0
}
