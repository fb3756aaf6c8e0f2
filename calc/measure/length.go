package measure

import "math"

const maxLengthMM = 1e7

// The ways to read a length.
var (
	length = quantity{want: "a length such as 3.2 m, 320 cm or 10 ft 6 in", units: lengthUnits, metric: "m",
		imperial: "ft", max: maxLengthMM, compound: true}
	smallLength = quantity{want: "a size such as 24 cm, 240 mm or 9.5 in", units: lengthUnits, metric: "cm",
		imperial: "in", max: maxLengthMM, compound: true}
	thinLength = quantity{want: "a length such as 18 mm or 0.7 in", units: lengthUnits, metric: "mm",
		imperial: "in", max: maxLengthMM, compound: true}
	offset = quantity{want: "a length such as 3.2 m or -4 ft", units: lengthUnits, metric: "m", imperial: "ft",
		max: maxLengthMM, signed: true, compound: true}
	altitude = quantity{want: "a height such as 300 m or 1000 ft", units: lengthUnits, metric: "m",
		imperial: "ft", max: 2e7, signed: true, compound: true}
)

var lengthUnits = []unit{
	{"mm|millimetre|millimetres|millimeter|millimeters", 1, "metric", ""},
	{"cm|centimetre|centimetres|centimeter|centimeters", 10, "metric", "mm"},
	{"m|metre|metres|meter|meters|mtr", 1000, "metric", "cm"},
	{"km|kilometre|kilometres|kilometer|kilometers", 1e6, "metric", ""},
	{"in|ins|inch|inches|\"", MMPerInch, "imperial", ""},
	{"ft|foot|feet|'", MMPerFoot, "imperial", "in"},
	{"yd|yds|yard|yards", MMPerYard, "imperial", ""},
	{"mi|mile|miles", MMPerMile, "imperial", ""},
}

// ParseLengthMM reads a length of room size, in millimetres, 0 to 10 km. A bare
// number means metres (Metric) or feet (Imperial); "10 ft 6" and "3 m 20" take
// the second number as inches and centimetres. Errors are *Error.
func ParseLengthMM(text string, bare System) (float64, error) {
	return length.read(text, bare)
}

// ParseSmallLengthMM reads a length of balloon size, in millimetres, 0 to
// 10 km. A bare number means centimetres (Metric) or inches (Imperial).
func ParseSmallLengthMM(text string, bare System) (float64, error) {
	return smallLength.read(text, bare)
}

// ParseThinLengthMM reads a thickness, a dip or another small length, in millimetres. A bare number means millimetres
// (Metric) or inches (Imperial).
func ParseThinLengthMM(text string, bare System) (float64, error) {
	return thinLength.read(text, bare)
}

// ParseOffsetMM reads a length that may be negative, such as a coordinate or a
// height above the sea, in millimetres. A bare number means metres or feet.
func ParseOffsetMM(text string, bare System) (float64, error) {
	return offset.read(text, bare)
}

// ParseAltitudeM reads a height above the sea in metres, which may be negative.
// A bare number means metres or feet.
func ParseAltitudeM(text string, bare System) (float64, error) {
	mm, err := altitude.read(text, bare)
	return mm / 1000, err
}

// FormatLength writes a length of room size: metres to the nearest 10 mm
// ("3.2 m"), or feet and inches to the nearest half inch ("10 ft 6 in").
// Halves round away from zero.
func FormatLength(mm float64, s System) string {
	if s != Imperial {
		return decimal(math.Round(mm/10)/100, 2) + " m"
	}
	halves := math.Round(math.Abs(mm) / MMPerInch * 2)
	if math.IsNaN(halves) || math.IsInf(halves, 0) {
		return "? ft"
	}
	sign := ""
	if mm < 0 && halves > 0 {
		sign = "-"
	}
	feet := math.Floor(halves / 24)
	inches := (halves - float64(feet*24)) / 2
	switch {
	case feet == 0:
		return sign + decimal(inches, 1) + " in"
	case inches == 0:
		return sign + decimal(feet, 0) + " ft"
	}
	return sign + decimal(feet, 0) + " ft " + decimal(inches, 1) + " in"
}

// FormatSmallLength writes a length of balloon size: centimetres to the nearest
// millimetre ("24 cm") or inches to the nearest tenth ("9.5 in").
func FormatSmallLength(mm float64, s System) string {
	if s == Imperial {
		return decimal(math.Round(mm/MMPerInch*10)/10, 1) + " in"
	}
	return decimal(math.Round(mm)/10, 1) + " cm"
}

// FormatThinLength writes a thickness or a dip: millimetres to the nearest tenth
// below 10, else to the nearest whole one ("18 mm"); or inches to the nearest
// hundredth ("0.71 in").
func FormatThinLength(mm float64, s System) string {
	switch {
	case s == Imperial:
		return decimal(mm/MMPerInch, 2) + " in"
	case math.Abs(mm) < 9.95:
		return decimal(mm, 1) + " mm"
	}
	return decimal(mm, 0) + " mm"
}

// FormatAltitude writes a height above the sea to the nearest metre or foot.
func FormatAltitude(metres float64, s System) string {
	if s == Imperial {
		return decimal(math.Round(metres*1000/MMPerFoot), 0) + " ft"
	}
	return decimal(math.Round(metres), 0) + " m"
}
