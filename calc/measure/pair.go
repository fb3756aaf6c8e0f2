package measure

import (
	"math"
	"strings"
)

const pairWant = "a width and a height such as 3 x 2 m or 10 ft x 8 ft"

// times replaces what people write between a width and a height by "x". No unit of length has these letters.
var times = strings.NewReplacer("×", "x", "✕", "x", "✖", "x", "*", "x", "by", "x")

// IsPair reports whether a text means a width and a height, well written or not: a number, then a times sign, "x" or
// "by".
func IsPair(text string) bool {
	width, _, found := strings.Cut(times.Replace(strings.ToLower(text)), "x")
	return found && strings.ContainsAny(plain(width), "0123456789")
}

// ParsePairMM reads a width and a height, in millimetres: "3 x 2 m", "3 m by 2 m", "10'6\" × 8'". A unit given once
// holds for both lengths. Bare numbers mean metres (Metric) or feet (Imperial). Errors are *Error.
func ParsePairMM(text string, bare System) (widthMM, heightMM float64, err error) {
	refuse := func(why string) (float64, float64, error) {
		return 0, 0, &Error{Text: text, Want: pairWant, Why: why}
	}
	if strings.TrimSpace(text) == "" {
		return refuse("")
	}
	parts := strings.Split(times.Replace(strings.ToLower(text)), "x")
	switch {
	case len(parts) < 2 || strings.TrimSpace(parts[1]) == "":
		return refuse("the height is missing")
	case len(parts) > 2:
		return refuse("more than two lengths")
	}
	var sides [2]scanned
	for i := range sides {
		if why := sides[i].scan(parts[i]); why != "" {
			return refuse(why)
		}
	}
	sides[0].borrow(&sides[1])
	sides[1].borrow(&sides[0])
	var mm [2]float64
	for i := range sides {
		why := ""
		if mm[i], why = length.value(&sides[i], bare); why != "" {
			return refuse(why)
		}
	}
	return mm[0], mm[1], nil
}

// borrow gives a single number without a unit the first unit of the other length.
func (result *scanned) borrow(other *scanned) {
	if len(result.terms) == 1 && result.terms[0].unit == "" {
		result.terms[0].unit = other.terms[0].unit
	}
}

// FormatPair writes a width and a height of room size, with the rounding of [FormatLength]: "3.2 x 2.4 m", "8 x 7 ft",
// "10 ft 6 in x 8 ft".
func FormatPair(widthMM, heightMM float64, s System) string {
	width, height := FormatLength(widthMM, s), FormatLength(heightMM, s)
	number, unit, _ := strings.Cut(width, " ")
	if _, same, _ := strings.Cut(height, " "); unit == same && !strings.Contains(unit, " ") {
		width = number
	}
	return width + " x " + height
}

// ExactLength writes a length as [FormatLength] does, in whichever system does not round it, else in millimetres.
// Parsing gives the length again, to a thousandth of a millimetre.
func ExactLength(mm float64, s System) string {
	for _, system := range []System{s, Metric, Imperial} {
		text := FormatLength(mm, system)
		if back, err := ParseLengthMM(text, system); err == nil && math.Abs(back-mm) < 0.0005 {
			return text
		}
	}
	return decimal(mm, 3) + " mm"
}
