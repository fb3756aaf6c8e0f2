package measure

import "math"

const wantTemperature = "a temperature such as 22 C or 72 F"

// ParseTemperatureC reads a temperature in degrees Celsius, from absolute zero
// to 1000 degrees C: "72F", "22 °C", "295 K". A bare number means Celsius
// (Metric) or Fahrenheit (Imperial). Errors are *Error.
func ParseTemperatureC(text string, bare System) (float64, error) {
	var parts scanned
	why := parts.scan(text)
	celsius := 0.0
	switch {
	case why != "":
	case parts.prefix != "" || len(parts.terms) != 1:
		why = "more than one number with a unit"
	default:
		celsius, why = inCelsius(&parts, bare)
	}
	if why != "" {
		return 0, &Error{Text: text, Want: wantTemperature, Why: why}
	}
	return celsius, nil
}

func inCelsius(parts *scanned, bare System) (celsius float64, why string) {
	value, name := parts.terms[0].value, parts.terms[0].unit
	if parts.negative {
		value = 0 - value
	}
	if name == "" || oneOf(name, "°|deg|degree|degrees") {
		name = pick(bare, "c", "f")
	}
	switch {
	case oneOf(name, "c|°c|° c|celsius|deg c|degrees c|degc|degrees celsius"):
		celsius = value
	case oneOf(name, "f|°f|° f|fahrenheit|deg f|degrees f|degf|degrees fahrenheit"):
		celsius = (value - 32) / 1.8
	case oneOf(name, "k|kelvin"):
		celsius = value - ZeroCelsiusK
	default:
		return 0, "unknown unit " + shorten(name)
	}
	if celsius < -ZeroCelsiusK-1e-9 {
		return 0, "colder than anything can be"
	}
	if celsius > 1000 {
		return 0, "far too hot"
	}
	return celsius, ""
}

// FormatTemperature writes degrees Celsius as "22.5 °C" (nearest tenth) or as
// "72 °F" (nearest tenth).
func FormatTemperature(celsius float64, s System) string {
	if s == Imperial {
		return decimal(math.Round((float64(celsius*1.8)+32)*10)/10, 1) + " °F"
	}
	return decimal(math.Round(celsius*10)/10, 1) + " °C"
}
