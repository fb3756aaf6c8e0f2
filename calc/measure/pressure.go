package measure

import "math"

var pressureUnits = []unit{
	{"pa|pascal|pascals", 1, "", ""},
	{"hpa|mbar|mb", 100, "", ""},
	{"kpa", 1000, "", ""},
	{"mpa", 1e6, "", ""},
	{"bar|bars", PascalPerBar, "", ""},
	{"psi|psig|lb/in", PascalPerPSI, "", ""},
	{"atm", PascalPerAtm, "", ""},
}

var pressure = quantity{want: "a pressure such as 200 bar or 2900 psi", units: pressureUnits, metric: "bar",
	imperial: "psi", max: 1e9}

// ParsePressurePa reads a pressure in pascal, 0 to 10,000 bar: "200 bar", "2900 psi", "2.5 kPa". A bare number means
// bar (Metric) or psi (Imperial). Case is ignored: "mpa" means megapascal.
func ParsePressurePa(text string, bare System) (float64, error) {
	return pressure.read(text, bare)
}

// FormatPressure writes a pressure. Metric: bar to the nearest tenth from half a bar up, else whole pascal. Imperial:
// psi to the nearest hundredth below 100 psi, else whole psi.
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
