package measure

import (
	"math"
	"strings"
)

var noUnits = []unit{{"number", 1, "", ""}}

// The ways to read quantities without a system of units.
var (
	plainNumber = quantity{want: "a number such as 2.5", units: noUnits, metric: "number", imperial: "number",
		max: 1e12, signed: true}
	count = quantity{want: "a whole number such as 48", units: noUnits, metric: "number", imperial: "number",
		max: 1e9}
	percentage = quantity{want: "a percentage such as 5 %", units: percentUnits, metric: "%", imperial: "%",
		max: 1e6, signed: true}
	angle = quantity{want: "an angle such as 45 degrees", units: angleUnits, metric: "deg", imperial: "deg",
		max: 36000, signed: true}
)

var percentUnits = []unit{
	{"%|percent|per cent|pct", 1, "", ""},
}

var angleUnits = []unit{
	{"°|deg|degs|degree|degrees", 1, "", ""},
	{"rad|radian|radians", 180 / math.Pi, "", ""},
}

// ParseNumber reads a number with a decimal comma or point, from minus to plus 1e12. It may be a fraction ("2 1/2").
// Errors are *Error.
func ParseNumber(text string) (float64, error) {
	return plainNumber.read(text, Metric)
}

// ParseCount reads a whole number from 0 to 1e9. It accepts grouped thousands ("1,200", "1.200", "1 200"), since a
// count has no decimals.
func ParseCount(text string) (int, error) {
	cleaned := plain(text)
	for _, separator := range []string{",", ".", " ", "'"} {
		if strings.Contains(cleaned, separator) && grouped(cleaned, separator) {
			cleaned = strings.ReplaceAll(cleaned, separator, "")
		}
	}
	value, err := count.read(cleaned, Metric)
	if failure, ok := err.(*Error); ok {
		failure.Text = text
		return 0, failure
	}
	if value != math.Trunc(value) {
		_, err := count.refuse(text, "not whole")
		return 0, err
	}
	return int(value), nil
}

// ParsePercent reads a percentage, -1e6 to 1e6, in percent: "5 %" and "5" both
// give 5. A bare number between 0 and 1 is refused, since 0.05 could mean either
// 0.05 % or 5 %.
func ParsePercent(text string) (float64, error) {
	percent, err := percentage.read(text, Metric)
	if err == nil && percent > 0 && percent < 1 && !strings.ContainsAny(text, "%pP") {
		_, err = percentage.refuse(text, "it could mean "+decimal(percent, 4)+" % or "+decimal(percent*100, 2)+" %")
	}
	return percent, err
}

// FormatPercent writes a percentage to the nearest tenth: "4.5 %". Close to 100 it uses up to four decimals, so that
// only 100 is written as "100 %": "99.97 %".
func FormatPercent(percent float64) string {
	digits, unit := 1, 10.0
	for percent < 100 && digits < 4 && math.Round(percent*unit) >= 100*unit {
		digits, unit = digits+1, unit*10
	}
	return decimal(math.Round(percent*unit)/unit, digits) + " %"
}

// ParseAngleDeg reads an angle in degrees, up to 36000 either way: "45",
// "45°", "0.5 rad".
func ParseAngleDeg(text string) (float64, error) {
	return angle.read(text, Metric)
}

// FormatAngle writes degrees to the nearest tenth: "22.5°".
func FormatAngle(degrees float64) string {
	return decimal(math.Round(degrees*10)/10, 1) + "°"
}
