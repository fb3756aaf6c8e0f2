package measure

import "math"

const maxMassG = 1e9

// The ways to read a mass.
var (
	mass = quantity{want: "a weight such as 1.5 kg, 200 g or 3 lb 4 oz", units: massUnits, metric: "kg",
		imperial: "lb", max: maxMassG, compound: true}
	smallMass = quantity{want: "a weight such as 8 g or 0.5 oz", units: massUnits, metric: "g", imperial: "oz",
		max: maxMassG, compound: true}
)

var massUnits = []unit{
	{"mg|milligram|milligrams", 0.001, "metric", ""},
	{"g|gr|gram|grams|gramme|grammes", 1, "metric", ""},
	{"kg|kgs|kilo|kilos|kilogram|kilograms", 1000, "metric", ""},
	{"t|tonne|tonnes", 1e6, "metric", ""},
	{"oz|ounce|ounces", GramsPerOunce, "imperial", ""},
	{"lb|lbs|pound|pounds", GramsPerPound, "imperial", "oz"},
}

// ParseMassG reads a mass in grams, 0 to 1000 tonnes: "1.5kg", "3 lb 4 oz",
// "200 g". A bare number means kilograms (Metric) or pounds (Imperial).
func ParseMassG(text string, bare System) (float64, error) {
	return mass.read(text, bare)
}

// ParseSmallMassG reads a mass in grams; a bare number means grams (Metric) or
// ounces (Imperial).
func ParseSmallMassG(text string, bare System) (float64, error) {
	return smallMass.read(text, bare)
}

// FormatMass writes a mass. Metric: grams to the nearest tenth below 100 g, to the nearest gram below 1 kg, else
// kilograms to the nearest 10 g. Imperial: ounces to the nearest hundredth below one ounce, to the nearest tenth below
// one pound, else pounds to the nearest hundredth.
func FormatMass(grams float64, s System) string {
	size := math.Abs(grams)
	switch {
	case s == Imperial && size < GramsPerOunce:
		return decimal(grams/GramsPerOunce, 2) + " oz"
	case s == Imperial && size < GramsPerPound:
		return decimal(math.Round(grams/GramsPerOunce*10)/10, 1) + " oz"
	case s == Imperial:
		return decimal(math.Round(grams/GramsPerPound*100)/100, 2) + " lb"
	case size < 99.95:
		return decimal(math.Round(grams*10)/10, 1) + " g"
	case size < 999.5:
		return decimal(math.Round(grams), 0) + " g"
	}
	return decimal(math.Round(grams/10)/100, 2) + " kg"
}
