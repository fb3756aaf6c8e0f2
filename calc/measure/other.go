package measure

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// InUnits returns a text with its quantities of the other system as round ones of s: "8ft wide" becomes "2.4 m wide",
// and "sign 2kg @ 1.2m" becomes "sign 4 lb @ 4 ft". It is for examples, where about as much is as good. Numbers joined
// by "x" share the unit after the last one. All other text stays unchanged, also "12 in 3.1m", where "in" is no unit.
func InUnits(text string, s System) string {
	words := strings.Split(strings.ReplaceAll(text, "cu ft", "cuft"), " ")
	var unit *exchange
	at := 0 // where the unit stands
	for i := len(words) - 1; i >= 0; i-- {
		before, number, name, after := quantityIn(words[i])
		if number == "" && words[i] == "x" {
			continue
		}
		if name != "" || number == "" {
			place := name == "in" && number == "" && after == "" && i+1 < len(words) && startsWithDigit(words[i+1])
			if unit, at = exchangeOf(name, s), i; place {
				unit = nil
			}
		}
		if unit == nil || number == "" {
			continue
		}
		value, other := unit.round(number)
		words[i] = before + value + after
		if at == i {
			words[i] = before + value + " " + other + after
		} else if _, _, name, after := quantityIn(words[at]); name == unit.name {
			words[at] = other + after
		}
	}
	return strings.ReplaceAll(strings.Join(words, " "), "cuft", "cu ft")
}

// Speaks reports whether a text has no quantity in a unit of the other system.
func Speaks(text string, s System) bool { return InUnits(text, s) == text }

// Say returns the text of an error, of one of this package with only those examples that are in the units of s.
func Say(err error, s System) string {
	if fault, is := errors.AsType[*Error](err); is {
		return fault.Taking(func(example string) bool { return Speaks(example, s) })
	}
	return err.Error()
}

// exchange is a unit and the one that people of the other system would use for about as much.
type exchange struct {
	name   string
	system System
	factor float64 // how many of the other make one
	other  string
}

var exchanges = [...]exchange{
	{"m", Metric, 1000 / MMPerFoot, "ft"}, {"cm", Metric, 10 / MMPerInch, "in"}, {"mm", Metric, 1 / MMPerInch, "in"},
	{"ft", Imperial, MMPerFoot / 1000, "m"}, {"in", Imperial, MMPerInch / 10, "cm"},
	{"kg", Metric, 1000 / GramsPerPound, "lb"}, {"g", Metric, 1 / GramsPerOunce, "oz"},
	{"lb", Imperial, GramsPerPound / 1000, "kg"}, {"oz", Imperial, GramsPerOunce, "g"},
	{"N", Metric, 1 / (GramsPerPound * newtonPerGram), "lb"},
	{"m/s", Metric, 1 / MPSPerMPH, "mph"}, {"km/h", Metric, 1 / (3.6 * MPSPerMPH), "mph"},
	{"mph", Imperial, MPSPerMPH, "m/s"},
	{"L", Metric, 1 / LitresPerCuFt, "cuft"}, {"m3", Metric, 1000 / LitresPerCuFt, "cuft"},
	{"cuft", Imperial, LitresPerCuFt / 1000, "m3"},
	{"C", Metric, 9.0 / 5, "F"}, {"F", Imperial, 5.0 / 9, "C"},
}

// exchangeOf returns the exchange of a unit into the system; nil if the unit is none, or one of the system.
func exchangeOf(name string, s System) *exchange {
	for i := range exchanges {
		if x := &exchanges[i]; x.name == name && (x.system == Imperial) != (s == Imperial) {
			return x
		}
	}
	return nil
}

// quantityIn divides a word into a number, the unit after it and what stands around them. Either may be empty.
func quantityIn(word string) (before, number, unit, after string) {
	word, after = strings.TrimRight(word, ",;:.)"), word[len(strings.TrimRight(word, ",;:.)")):]
	from := strings.IndexAny(word, digits)
	if from < 0 {
		return "", "", word, after
	}
	number = word[from:]
	number = number[:len(number)-len(strings.TrimLeft(number, digits+"."))]
	return word[:from], number, word[from+len(number):], after
}

const digits = "0123456789"

func startsWithDigit(word string) bool { return word != "" && strings.Contains(digits, word[:1]) }

// round converts a number to a round one of the other unit: one digit where that is within a tenth, else two.
func (x *exchange) round(number string) (value, unit string) {
	of, _ := strconv.ParseFloat(number, 64)
	of, unit = float64(of*x.factor), x.other
	switch {
	case x.name == "C":
		of += 32
	case x.name == "F":
		of -= float64(32 * x.factor)
	case x.name == "m" && of > 0 && of < 1:
		of, unit = of*12, "in"
	}
	if of <= 0 {
		return decimal(of, 0), unit
	}
	step := 1.0
	for step > of {
		step /= 10
	}
	for step*10 <= of {
		step *= 10
	}
	near := float64(math.Round(of/step) * step)
	if math.Abs(near-of) > of/10 {
		near = math.Round(of/step*10) * step / 10
	}
	return decimal(near, 3), unit
}
