package measure

import "math"

const wantTemperature = "a temperature such as 22 C or 72 F"

// ParseTemperatureC reads a temperature in degrees Celsius, from absolute zero
// to 1000 degrees C: "72F", "22 °C", "295 K". A bare number means Celsius
// (Metric) or Fahrenheit (Imperial). Errors are *Error.
func ParseTemperatureC(text string, bare System) (float64, error) {
	refuse := func(why string) (float64, error) {
		return 0, &Error{Text: text, Want: wantTemperature, Why: why}
	}
	parts, why := scan(text)
	if why != "" {
		return refuse(why)
	}
	if parts.prefix != "" || len(parts.terms) != 1 {
		return refuse("more than one number with a unit")
	}
	value := parts.terms[0].value
	if parts.negative {
		value = 0 - value
	}
	name := parts.terms[0].unit
	switch name {
	case "", "°", "deg", "degree", "degrees":
		name = pick(bare, "c", "f")
	}
	var celsius float64
	switch name {
	case "c", "°c", "° c", "celsius", "deg c", "degrees c", "degc", "degrees celsius":
		celsius = value
	case "f", "°f", "° f", "fahrenheit", "deg f", "degrees f", "degf", "degrees fahrenheit":
		celsius = (value - 32) / 1.8
	case "k", "kelvin":
		celsius = value - ZeroCelsiusK
	default:
		return refuse("unknown unit " + shorten(name))
	}
	if celsius < -ZeroCelsiusK-1e-9 {
		return refuse("colder than anything can be")
	}
	if celsius > 1000 {
		return refuse("far too hot")
	}
	return celsius, nil
}

// FormatTemperature writes degrees Celsius as "22.5 °C" (nearest tenth) or as
// "72 °F" (nearest tenth).
func FormatTemperature(celsius float64, s System) string {
	if s == Imperial {
		return decimal(math.Round((float64(celsius*1.8)+32)*10)/10, 1) + " °F"
	}
	return decimal(math.Round(celsius*10)/10, 1) + " °C"
}
