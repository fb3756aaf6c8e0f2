package measure

import "math"

// newtonPerGram is standard gravity. It converts a weight to its force.
const newtonPerGram = 9.80665 / 1000

// force has no unit for a bare number, because line is sold by all of these units.
var force = quantity{want: "a force with its unit, such as 90 N, 20 lb or 9 kg", units: forceUnits,
	max: 1e9, compound: true}

var forceUnits = []unit{
	{"n|newton|newtons", 1, "newton", ""},
	{"dan", 10, "newton", ""},
	{"kn|kilonewton|kilonewtons", 1000, "newton", ""},
	{"g|gram|grams", newtonPerGram, "metric", ""},
	{"kg|kgs|kgf|kilo|kilos|kilogram|kilograms|kg test", 1000 * newtonPerGram, "metric", ""},
	{"oz|ounce|ounces", GramsPerOunce * newtonPerGram, "imperial", ""},
	{"lb|lbs|lbf|pound|pounds|lb test|lbs test|pound test", GramsPerPound * newtonPerGram, "imperial", "oz"},
}

// ParseForceN reads a force in newton, 0 to 1e9: "90 N", "1.2 kN", "50 daN", or a weight, which stands for its force:
// "20 lb", "20 lb test", "9 kg". A bare number is refused. Errors are *Error.
func ParseForceN(text string) (float64, error) { return force.read(text, Metric) }

// FormatForce writes a force in newtons or pounds, with one decimal; less than a pound in ounces.
func FormatForce(newtons float64, s System) string {
	if s != Imperial {
		return FormatNumber(newtons, 1) + " N"
	}
	pounds := newtons / (GramsPerPound * newtonPerGram)
	if pounds != 0 && math.Abs(pounds) < 1 {
		return FormatMass(newtons/newtonPerGram, s)
	}
	return FormatNumber(pounds, 1) + " lb"
}
