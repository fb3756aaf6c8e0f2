package measure

import (
	"math"
	"strings"
)

func volumeUnit(name string) (unit, bool) {
	switch name {
	case "ml", "millilitre", "millilitres", "milliliter", "milliliters":
		return unit{0.001, "metric", ""}, true
	case "cl", "centilitre", "centilitres":
		return unit{0.01, "metric", ""}, true
	case "l", "ltr", "litre", "litres", "liter", "liters":
		return unit{1, "metric", ""}, true
	case "cbm", "cubic m", "cubic metre", "cubic metres", "cubic meter", "cubic meters":
		return unit{1000, "metric", ""}, true
	case "cuft", "cu ft", "cu feet", "cubic ft", "cubic foot", "cubic feet", "cft":
		return unit{LitresPerCuFt, "imperial", ""}, true
	case "gal", "gallon", "gallons":
		return unit{LitresPerGallon, "imperial", ""}, true
	}
	return unit{}, false
}

// ParseVolumeL reads a volume in litres, 0 to 1 million m3: "480 L", "1.2 m3",
// "17 cu ft", "2 gal" (US gallons). A bare number means litres (Metric) or
// cubic feet (Imperial).
func ParseVolumeL(text string, bare System) (float64, error) {
	plainText := plain(text)
	for _, mark := range []string{"m^3", "m3"} {
		plainText = strings.ReplaceAll(plainText, mark, "cbm")
	}
	for _, mark := range []string{"ft^3", "ft3"} {
		plainText = strings.ReplaceAll(plainText, mark, "cuft")
	}
	q := quantity{want: "a volume such as 480 L, 1.2 m3 or 17 cu ft", find: volumeUnit, bare: pick(bare, "l", "cuft"), max: 1e9}
	litres, err := q.read(plainText)
	if failure, ok := err.(*Error); ok {
		failure.Text = text
	}
	return litres, err
}

// FormatVolume writes litres, or cubic feet: below 10 to the nearest hundredth,
// below 1000 to the nearest tenth, else whole.
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
