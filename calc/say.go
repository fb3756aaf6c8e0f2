package calc

import (
	"strings"

	"garlandry/calc/measure"
)

// say fills the gaps of a pattern with figures, in order, and returns the figures left over. A gap is {2} for a
// number with at most two decimals, a kind for a figure in the reader's units ({length}, {small_length}, {mass}), or
// two words for a count ({tie|ties}). Never put text that somebody typed into a pattern.
func say(s measure.System, pattern string, figures []float64) (string, []float64) {
	var text strings.Builder
	for len(figures) > 0 {
		before, rest, found := strings.Cut(pattern, "{")
		if !found {
			break
		}
		gap, after, _ := strings.Cut(rest, "}")
		text.WriteString(before)
		text.WriteString(fill(s, gap, figures[0]))
		pattern, figures = after, figures[1:]
	}
	text.WriteString(pattern)
	return text.String(), figures
}

// fill returns one figure in the form of its gap.
func fill(s measure.System, gap string, figure float64) string {
	if one, many, counted := strings.Cut(gap, "|"); counted {
		if figure == 1 {
			many = one
		}
		return measure.FormatNumber(figure, 0) + " " + many
	}
	if len(gap) == 1 && isDigit(gap[0]) {
		return measure.FormatNumber(figure, int(gap[0]-'0'))
	}
	return formatNumber(Kind(gap), figure, s)
}

// say returns a pattern with its gaps filled, in the reader's units.
func (v Values) say(pattern string, figures ...float64) string {
	text, _ := say(v.given.system, pattern, figures)
	return text
}
