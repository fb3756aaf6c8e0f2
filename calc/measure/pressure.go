package measure

import "math"

func pressureUnit(name string) (unit, bool) {
	switch name {
	case "pa", "pascal", "pascals":
		return unit{1, "", ""}, true
	case "hpa", "mbar", "mb":
		return unit{100, "", ""}, true
	case "kpa":
		return unit{1000, "", ""}, true
	case "mpa":
		return unit{1e6, "", ""}, true
	case "bar", "bars":
		return unit{PascalPerBar, "", ""}, true
	case "psi", "psig", "lb/in":
		return unit{PascalPerPSI, "", ""}, true
	case "atm":
		return unit{PascalPerAtm, "", ""}, true
	}
	return unit{}, false
}

// ParsePressurePa reads a pressure in pascal, 0 to 10,000 bar: "200 bar",
// "2900 psi", "2.5 kPa". A bare number means bar (Metric) or psi (Imperial).
// Letters' case is ignored: "mpa" is megapascal.
func ParsePressurePa(text string, bare System) (float64, error) {
	return quantity{want: "a pressure such as 200 bar or 2900 psi", find: pressureUnit, bare: pick(bare, "bar", "psi"), max: 1e9}.read(text)
}

// FormatPressure writes a pressure: from half a bar up in bar to the nearest
// tenth, below that in whole pascal; or in psi to the nearest hundredth below
// 100 psi, else to the nearest whole psi.
func FormatPressure(pascal float64, s System) string {
	switch {
	case s == Imperial && math.Abs(pascal) < 100*PascalPerPSI:
		return decimal(pascal/PascalPerPSI, 2) + " psi"
	case s == Imperial:
		return decimal(pascal/PascalPerPSI, 0) + " psi"
	case math.Abs(pascal) < PascalPerBar/2:
		return decimal(pascal, 0) + " Pa"
	}
	return decimal(pascal/PascalPerBar, 1) + " bar"
}
