package measure

import (
	"math"
	"strings"
)

func noUnit(name string) (unit, bool) {
	return unit{1, "", ""}, name == "number"
}

func percentUnit(name string) (unit, bool) {
	switch name {
	case "%", "percent", "per cent", "pct":
		return unit{1, "", ""}, true
	}
	return unit{}, false
}

func angleUnit(name string) (unit, bool) {
	switch name {
	case "°", "deg", "degs", "degree", "degrees":
		return unit{1, "", ""}, true
	case "rad", "radian", "radians":
		return unit{180 / math.Pi, "", ""}, true
	}
	return unit{}, false
}

// ParseNumber reads a number with a decimal comma or point, up to a million
// million in size; it may be negative and may be a fraction ("2 1/2"). Errors
// are *Error.
func ParseNumber(text string) (float64, error) {
	return quantity{want: "a number such as 2.5", find: noUnit, bare: "number", max: 1e12, signed: true}.read(text)
}

// ParseCount reads a whole number from 0 to a thousand million. Grouped
// thousands are understood ("1,200", "1.200", "1 200"), since a count has no
// decimals.
func ParseCount(text string) (int, error) {
	const want = "a whole number such as 48"
	cleaned := plain(text)
	for _, separator := range []string{",", ".", " ", "'"} {
		if strings.Contains(cleaned, separator) && grouped(cleaned, separator) {
			cleaned = strings.ReplaceAll(cleaned, separator, "")
		}
	}
	value, err := quantity{want: want, find: noUnit, bare: "number", max: 1e9}.read(cleaned)
	if failure, ok := err.(*Error); ok {
		failure.Text = text
		return 0, failure
	}
	if value != math.Trunc(value) {
		return 0, &Error{Text: text, Want: want, Why: "not whole"}
	}
	return int(value), nil
}

// ParsePercent reads a percentage, -1e6 to 1e6, in percent: "5 %" and "5" both
// give 5.
func ParsePercent(text string) (float64, error) {
	return quantity{want: "a percentage such as 5 %", find: percentUnit, bare: "%", max: 1e6, signed: true}.read(text)
}

// FormatPercent writes a percentage to the nearest tenth: "4.5 %".
func FormatPercent(percent float64) string {
	return decimal(math.Round(percent*10)/10, 1) + " %"
}

// ParseAngleDeg reads an angle in degrees, up to 36000 either way: "45",
// "45°", "0.5 rad".
func ParseAngleDeg(text string) (float64, error) {
	return quantity{want: "an angle such as 45 degrees", find: angleUnit, bare: "deg", max: 36000, signed: true}.read(text)
}

// FormatAngle writes degrees to the nearest tenth: "22.5°".
func FormatAngle(degrees float64) string {
	return decimal(math.Round(degrees*10)/10, 1) + "°"
}
