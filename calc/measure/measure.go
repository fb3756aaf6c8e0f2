// Package measure reads and writes the quantities that a decorator types: lengths ("10'6\"", "3,2 m"), temperatures,
// masses, volumes, speeds, times, money and plain numbers. A width and a height may stand in one text ("3 x 2 m").
//
// Parsers accept many ways to write a quantity (spaces, decimal comma, typographic primes, units next to the number,
// "10 ft 6") and refuse nonsense: empty text, two units that do not go together, a comma that could mean either
// thousands or a decimal, absurd sizes. They return only finite values. A typed unit always counts; System says what a
// bare number means.
//
// The package does not know what a quantity is for. The allowed ranges are the callers'. It does no I/O and keeps no
// state. Start at ParseLengthMM and FormatLength.
package measure

import (
	"math"
	"strconv"
	"strings"
)

// System is a system of units: it gives the unit of a bare number when parsing and of a formatted value.
type System string

// The two systems. Any other value is treated as Metric.
const (
	Metric   System = "metric"
	Imperial System = "imperial"
)

// These factors are exact by definition (international yard and pound agreement of 1959; NIST SP 811, from memory),
// including the litres of a US gallon.
const (
	MMPerInch       = 25.4
	MMPerFoot       = 304.8
	MMPerYard       = 914.4
	MMPerMile       = 1609344.0
	GramsPerPound   = 453.59237
	GramsPerOunce   = 28.349523125
	LitresPerCuFt   = 28.316846592
	LitresPerGallon = 3.785411784
	PascalPerBar    = 100000.0
	PascalPerPSI    = 6894.757293168
	PascalPerAtm    = 101325.0
	MPSPerMPH       = 0.44704
	MPSPerKnot      = 1852.0 / 3600.0
	ZeroCelsiusK    = 273.15
)

// Error says what was read and what would have been accepted. Every parser of this package returns it as *Error.
type Error struct {
	Text string // what was typed
	Want string // what is accepted, with examples: "a length such as 3.2 m or 10 ft"
	Why  string // what is wrong with Text; may be empty
}

// Error returns one line: what was read, why it was refused, and what is accepted.
func (e *Error) Error() string {
	read := "cannot read " + strconv.Quote(shorten(e.Text))
	if strings.TrimSpace(e.Text) == "" {
		read = "nothing was typed"
	} else if e.Why != "" {
		read += " (" + e.Why + ")"
	}
	return read + ": write " + e.Want
}

// Taking returns the text of the error with only those of its examples that takes accepts, so that nobody is told to
// write what a field refuses. A nil takes accepts none.
func (e *Error) Taking(takes func(example string) bool) string {
	want, examples, found := strings.Cut(e.Want, suchAs)
	if !found || takes != nil && takes(examples) {
		return e.Error()
	}
	want = strings.TrimSuffix(want, ",")
	if takes != nil {
		var taken []string
		listed := strings.NewReplacer(", or ", ", ", " or ", ", ").Replace(examples)
		for _, example := range strings.Split(listed, ", ") {
			if takes(example) {
				taken = append(taken, example)
			}
		}
		if len(taken) > 0 {
			want += suchAs + strings.Join(taken, " or ")
		}
	}
	return (&Error{Text: e.Text, Want: want, Why: e.Why}).Error()
}

// suchAs stands before the examples of what is accepted.
const suchAs = " such as "

func shorten(text string) string {
	runes := []rune(text)
	if len(runes) <= 40 {
		return text
	}
	return string(runes[:40]) + "..."
}

// decimal formats x with at most places decimals and without trailing zeros. NaN and infinities give "?", so that a
// page never shows them.
func decimal(x float64, places int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "?"
	}
	text := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// FormatNumber formats x with at most places decimals (0..9) and a decimal point, without trailing zeros: 2.50 is
// "2.5". NaN and infinities give "?".
func FormatNumber(x float64, places int) string {
	return decimal(x, min(max(places, 0), 9))
}
