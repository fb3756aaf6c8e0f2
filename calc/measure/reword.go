package measure

import (
	"math"
	"strconv"
	"strings"
)

// Reword converts the millimetres and grams in a text to the reader's units: "310 mm apart" to "12.2 in apart". Numbers
// joined by "x" or "to" share the unit after the last one. The ends of "95 to 210 mm" are rounded inwards, so that each
// may be typed. All other text stays unchanged.
func Reword(text string, s System) string {
	words := strings.Split(text, " ")
	said := words[:0]
	for _, word := range words {
		unit := strings.TrimRight(word, ",;:.)")
		if unit == "mm" || unit == "g" {
			if last := len(said) - 1; rewordBefore(said, unit, s) {
				said[last] += word[len(unit):]
				continue
			}
		}
		said = append(said, word)
	}
	return strings.Join(said, " ")
}

// rewordBefore converts the numbers with that unit at the end of said. It returns false if there are none.
func rewordBefore(said []string, unit string, s System) bool {
	found := false
	inwards := 0.0
	for at := len(said) - 1; at >= 0; at -= 2 {
		number := strings.TrimLeft(said[at], "(")
		value, err := strconv.ParseFloat(number, 64)
		if err != nil {
			break
		}
		joined := ""
		if at > 1 {
			joined = said[at-1]
		}
		if joined == "to" {
			inwards = -1
		}
		said[at] = said[at][:len(said[at])-len(number)] + reworded(value, inwards, unit, s)
		found = true
		if joined != "to" && joined != "x" {
			break
		}
		inwards = -inwards
	}
	return found
}

// reworded formats a value. It moves it inwards until the written value is within the original range.
func reworded(value, inwards float64, unit string, s System) string {
	text := ""
	for i := range 2000 {
		moved := value + float64(inwards*float64(i)*math.Abs(value)*0.0005)
		back := 0.0
		switch {
		case unit == "g":
			text = FormatMass(moved, s)
			back, _ = ParseMassG(text, s)
		case math.Abs(moved) < 10:
			text = FormatThinLength(moved, s)
			back, _ = ParseThinLengthMM(text, s)
		case math.Abs(moved) < 1000:
			text = FormatSmallLength(moved, s)
			back, _ = ParseSmallLengthMM(text, s)
		default:
			text = FormatLength(moved, s)
			back, _ = ParseLengthMM(text, s)
		}
		if float64((back-value)*inwards) >= 0 {
			break
		}
	}
	return text
}

// FormatBallast writes kilograms of ballast, always rounded up: to whole kilograms, or to whole pounds up to 20 lb and
// to multiples of five above.
func FormatBallast(kg float64, s System) string {
	if s != Imperial {
		return decimal(math.Ceil(kg-1e-6), 0) + " kg"
	}
	pounds := math.Ceil(kg*1000/GramsPerPound - 1e-6)
	if pounds > 20 {
		pounds = 5 * math.Ceil(pounds/5)
	}
	return decimal(pounds, 0) + " lb"
}
